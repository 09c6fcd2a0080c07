// Long work is done in slices, so that others who wait for an answer are served between two of them.

let last: Promise<unknown> = Promise.resolve()

/** Waits for the next turn of the event loop. However many ask, one of them goes on in each turn, in the order they asked. */
export function ownTurn(): Promise<unknown> {
  last = last.then(() => new Promise((resolve) => setImmediate(resolve)))
  return last
}
