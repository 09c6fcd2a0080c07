// Slow work a little at a time: what comes beyond it waits, and what comes beyond that is sent away for a moment.
import { Wait } from '../../kit/refusal.ts'

export type GateLimits = {
  atOnce: number
  waiting: number
  /** of the places to wait, so many at most for one asker: a crowd from one place leaves room for the others */
  ofOne: number
  /** of the places to wait, so many at most for all strangers together: the others are for those who are signed in */
  ofStrangers: number
  /** milliseconds for which a place stays empty before a stranger who had to wait takes it */
  rest: number
}

/** Who waits: a network of strangers, or a person who is signed in and goes first. */
export type Visitor = { of: string; signedIn: boolean }

/** Runs `work` for `asker` when its turn comes. Rejects with Wait where every place to wait is taken. */
export type Gate = <T>(asker: Visitor, work: () => Promise<T>) => Promise<T>

export function gate({ atOnce, waiting, ofOne, ofStrangers, rest }: GateLimits): Gate {
  let running = 0
  const signedIn: Place[] = []
  const strangers: Place[] = []

  async function turn(asker: Visitor): Promise<void> {
    if (running < atOnce) {
      running += 1
      return
    }
    const own = asker.signedIn ? signedIn : strangers
    const ofAsker = own.filter((place) => place.of === asker.of).length
    const full = signedIn.length + strangers.length >= waiting || (!asker.signedIn && strangers.length >= ofStrangers)
    if (full || ofAsker >= ofOne) throw new Wait('password/crowd', {}, 2)
    // the one who leaves hands the place on, so nobody who comes meanwhile takes it first
    await new Promise<void>((enter) => own.push({ of: asker.of, enter }))
  }

  /** While strangers crowd in, each place rests between two of them, so that the machine has time for everybody's pages. */
  function leave(): void {
    if (rest > 0 && signedIn.length === 0 && strangers.length > 0) setTimeout(handOn, rest)
    else handOn()
  }

  function handOn(): void {
    const next = signedIn.shift() ?? strangers.shift()
    if (next) next.enter()
    else running -= 1
  }

  return async (asker, work) => {
    await turn(asker)
    try {
      return await work()
    } finally {
      leave()
    }
  }
}

type Place = { of: string; enter: () => void }
