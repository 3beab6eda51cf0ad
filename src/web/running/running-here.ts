/** How many tests run for who works here; told by the strip that shows them, for whoever must not be in their way. */
export const runningHere = { tests: 0 };
