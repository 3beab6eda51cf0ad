/** A budget of so many asks: the same on every machine, for tests and for fair shares. A clock is the caller's. */
export function atMost(asks: number, keepGoing: () => boolean = () => true): () => boolean {
  let asked = 0;
  return () => {
    asked += 1;
    return asked <= asks && keepGoing();
  };
}
