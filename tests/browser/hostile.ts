/** Labels that try to be something else than text. */
export const hostile: readonly string[] = [
  "<script>alert(1)</script>",
  '"><img src=x onerror=alert(1)>',
  "</style><script>alert(1)</script>",
  "</title><svg onload=alert(1)>",
  '\\"; } * { display: none } @page { ',
  "' onmouseover='alert(1)",
  "&lt;b&gt; &#60;",
  "=1+1",
  "x".repeat(10_000),
  "🚪 門 Θύρα Дверь",
];
