// Samples that were stopped or came in two: what they prove, against whole-number arithmetic, and what cannot have come about.
import { describe, expect, test } from 'vitest'
import { proofFields, proofQuestionFrom } from '../../app/advisor/proof-question.ts'
import { prove } from '../../app/advisor/prove.ts'
import { choose, exactAtMost, quotient } from '../support/exact.ts'

type Typed = Record<string, string | number>

const read = (typed: Typed) => {
  const texts = Object.entries(typed).map(([name, value]) => [name, String(value)])
  return proofQuestionFrom(proofFields.parse(Object.fromEntries(texts)))
}

function proven(typed: Typed) {
  const reading = read(typed)
  if (reading.kind !== 'question') throw new Error(JSON.stringify(reading.causes))
  return prove(reading.question)
}

describe('a sample that was stopped', () => {
  const stopped = { lot: 480, tested: 50, found: 2, planned: 216, rejection: 2 }

  // Source: largest and smallest D that the whole sample of 216 leaves possible, by exact arithmetic: the 166 left out all
  // nonconforming, and none of them.
  test('is bounded in the lot as the whole sample, its cords left out taken the worst way', () => {
    const { lot, untested } = proven(stopped)
    expect(exactAtMost({ N: 480, D: lot.atMost, n: 216, c: 168 })).toBeGreaterThan(0.05)
    expect(exactAtMost({ N: 480, D: lot.atMost + 1, n: 216, c: 168 })).toBeLessThanOrEqual(0.05)
    expect(1 - exactAtMost({ N: 480, D: lot.atLeast, n: 216, c: 1 })).toBeGreaterThan(0.05)
    expect(1 - exactAtMost({ N: 480, D: lot.atLeast - 1, n: 216, c: 1 })).toBeLessThanOrEqual(0.05)
    expect(untested).toEqual({ atLeast: lot.atLeast - 2, atMost: lot.atMost - 2 })
  })

  // Source: by hand. The second one is the 50th: at most one among 49, and two or more among 50.
  test('bounds the process by the cord with which it ended', () => {
    const { fraction, interval, others } = proven(stopped)
    const noEarlier = (p: number) => (1 - p) ** 49 + 49 * p * (1 - p) ** 48
    const noLater = (p: number) => 1 - (1 - p) ** 50 - 50 * p * (1 - p) ** 49
    expect(noEarlier(fraction.atMost)).toBeCloseTo(0.05, 9)
    expect(noLater(fraction.atLeast)).toBeCloseTo(0.05, 9)
    expect(noEarlier(interval.upper)).toBeCloseTo(0.025, 9)
    expect(noLater(interval.lower)).toBeCloseTo(0.025, 9)
    expect(others).toEqual([])
  })

  // 480 cords, 216 tested, 2 found: the most that may be in the lot by sums of binomial coefficients, apart from the engine.
  test('is bounded like a sample that nothing stops once it was finished', () => {
    const finished = { lot: 480, tested: 216, found: 2 }
    const stoppable = proven({ ...finished, planned: 216, rejection: 2 })
    const atMostTwo = (D: number) => exactAtMost({ N: 480, D, n: 216, c: 2 })
    const most = Array.from({ length: 265 }, (_, rest) => rest + 2).findLast((D) => atMostTwo(D) > 0.05)
    expect(stoppable.lot.atMost).toBe(most)
    expect(stoppable).toEqual(proven(finished))
  })
})

describe('two samples', () => {
  const plan = { planned: 219, rejection: 2, first: 122, accept: 0 }

  // Source: sums of binomial coefficients (P at 12 .0471488303 of 360, .0485873638 of 594, .0295235428 of 240): one more is excluded.
  test.each([
    [360, 11],
    [594, 20],
    [240, 7],
  ])('stopped in the second: at most what still lets the first of %i cords come so far: %i', (lot, most) => {
    const comes = (D: number) => exactAtMost({ N: lot, D, n: 122, c: 1 })
    expect(comes(most)).toBeGreaterThan(0.05)
    expect(comes(most + 1)).toBeLessThanOrEqual(0.05)
    expect(proven({ ...plan, lot, tested: 172, found: 2 }).lot.atMost).toBe(most)
  })

  // Source: own enumeration of every count in both samples of lots of 16; a stop may come at the first cord that can bring it or at the last.
  test.each([0.9, 0.95])('are bounded so that the bounds hold %d of inspections, wherever testing stops', (level) => {
    const typed = { lot: 16, planned: 9, rejection: 3, first: 4, accept: 0, firstreject: 2, confidence: 100 * level }
    for (let D = 0; D <= 16; D++)
      for (const early of [true, false]) {
        let above = 0
        let below = 0
        for (const { tested, found, chance } of endsOf(D, early)) {
          const { lot } = proven({ ...typed, tested, found })
          if (lot.atMost >= D) above += chance
          if (lot.atLeast <= D) below += chance
        }
        expect(above, `${D}`).toBeGreaterThan(level - 1e-12)
        expect(below, `${D}`).toBeGreaterThan(level - 1e-12)
      }
  })

  // Source: by hand for 2/0/2 and 4/1/2: none in two, or one in two and none in the other two, is accepted.
  test('bound the process by the plan, not as one sample', () => {
    const small = { lot: 100, planned: 4, rejection: 2, first: 2, accept: 0, tested: 4, found: 1 }
    const p = proven(small).fraction.atMost
    const q = 1 - p
    expect(q ** 2 + 2 * p * q * q ** 2).toBeCloseTo(0.05, 9)
    expect(p).toBeGreaterThan(proven({ lot: 100, tested: 4, found: 1 }).fraction.atMost)
  })
})

/** Ends of 4/0/2, 9/2/3 in a lot of 16 with D nonconforming, each with its chance. */
function endsOf(D: number, early: boolean): { tested: number; found: number; chance: number }[] {
  const ends: { tested: number; found: number; chance: number }[] = []
  const all = choose(16, 4) * choose(12, 5)
  for (let x = 0; x <= 4; x++)
    for (let y = 0; y <= 5; y++) {
      const ways = choose(D, x) * choose(16 - D, 4 - x) * choose(D - x, y) * choose(12 - D + x, 5 - y)
      if (ways === 0n) continue
      const chance = quotient(ways, all)
      if (x === 0) ends.push({ tested: 4, found: 0, chance })
      else if (x >= 2) ends.push({ tested: early ? 2 : 4, found: early ? 2 : x, chance })
      else if (y < 2) ends.push({ tested: 9, found: 1 + y, chance })
      else ends.push({ tested: early ? 6 : 9, found: early ? 3 : 1 + y, chance })
    }
  return ends
}

describe('what cannot have come about', () => {
  const two = { lot: 480, tested: 172, found: 2, planned: 219, rejection: 2, first: 122, accept: 0 }
  test.each([
    ['planned', { ...two, planned: 171 }],
    ['planned', { ...two, planned: '' }],
    ['rejection', { ...two, rejection: '' }],
    ['rejection', { ...two, rejection: 101 }],
    ['first', { ...two, first: 219 }],
    ['first', { ...two, first: '' }],
    ['accept', { ...two, accept: 1 }],
    ['accept', { ...two, accept: '' }],
    ['firstreject', { ...two, firstreject: 1 }],
    ['firstreject', { ...two, firstreject: 3 }],
    // one found in the first: the second is to come; none: it never came; two more than the first and one cord can hold
    ['tested', { ...two, tested: 122, found: 1 }],
    ['tested', { ...two, found: 1 }],
    ['found', { ...two, found: 0 }],
    ['found', { ...two, tested: 123, found: 3 }],
    // one sample, neither finished nor stopped with the cord that rejects
    ['tested', { lot: 480, tested: 50, found: 0, planned: 216, rejection: 1 }],
    ['tested', { lot: 480, tested: 50, found: 2, planned: 216, rejection: 1 }],
  ])('is named at %s: %o', (field, typed) => {
    const reading = read(typed)
    expect(reading.kind === 'refused' && Object.keys(reading.causes)).toEqual([field])
  })
})
