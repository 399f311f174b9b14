/** A check as it may be printed: a crack test finds none by its method, it never proves that there are none. */
export function checkResult(check: { check: string; method?: string; result?: string }): string | undefined {
  if (!check.result) return undefined;
  const crackTest = /crack/i.test(check.check) || /crack/i.test(check.result);
  const found = /^(no|none|no cracks?|no cracks? found|not? found|ok|passed|clear|good)\.?$/i.test(check.result.trim());
  if (!crackTest || !found) return check.result;
  return check.method ? `no crack found by ${check.method}` : "no crack found";
}
