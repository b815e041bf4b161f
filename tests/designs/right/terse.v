// No blank that could be spared.
// options: --width 4
// verdict: PASS
module t(a,b,m,s,c,v,z,n);
input [3:0]a,b;input m;output [3:0]s;output c,v,z,n;
wire [4:0]k;assign k[0]=m;
f f0(a[0],b[0]^m,k[0],s[0],k[1]);f f1(a[1],b[1]^m,k[1],s[1],k[2]);f f2(a[2],b[2]^m,k[2],s[2],k[3]);f f3(a[3],b[3]^m,k[3],s[3],k[4]);
assign c=k[4],v=k[4]^k[3],z=~(s[0]|s[1]|s[2]|s[3]),n=s[3];
endmodule
module f(x,y,z,s,c);input x,y,z;output s,c;
assign {c,s}=x+y+z;
endmodule
