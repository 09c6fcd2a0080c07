// The percentage question over lots known cord by cord, against exact whole-number arithmetic.
import { describe, expect, test } from 'vitest'
import { type AlikeLots, replayOnce } from '../../../app/history/replay/alike.ts'
import { samplesBeside } from '../../../app/history/replay/effort.ts'
import { leastCostSamples } from '../../../app/history/replay/least-cost.ts'
import { replayedSampleOf } from '../../../app/history/replay/trial.ts'
import { priorOfNextLot } from '../../../app/statistics/history/next-lot.ts'
import { lotOf } from '../../support/counted-lot.ts'
import { exactAtMost, exactShipped } from '../../support/exact.ts'

const lots = [lotOf(1, 40, 6), lotOf(2, 25, 0), lotOf(3, 90, 12), lotOf(4, 60, 5), lotOf(5, 33, 2), lotOf(6, 40, 6)]

/** The two lots of 40 with 6 found stand together. */
const history = [lots[0], ...lots.slice(1, 5)].flatMap((lot, at) =>
  lot
    ? [
        {
          lots: at === 0 ? 2 : 1,
          size: lot.size,
          found: lot.all.found,
          tooMany: lot.tooMany,
          byPlan: true,
          costTestCents: lot.costTestCents,
          costEscapeCents: lot.costEscapeCents,
          costReturnCents: 32_000,
          afterRejection: 'return' as const,
          catchOf100: '95',
        },
      ]
    : [],
)

describe('a trial of a history', () => {
  test.each([
    { allowed: 0, percent: 10 },
    { allowed: 1, percent: 10 },
    { allowed: 0, percent: 25 },
    { allowed: 2, percent: 60 },
    { allowed: 0, percent: 100 },
  ])('of $percent %, $allowed allowed, adds up the lots one by one', ({ allowed, percent }) => {
    const sampleOf = (size: number) => Math.ceil((size * percent) / 100)
    const screening = history.map((lot) => ({ ...lot, afterRejection: 'screen' as const }))
    const tried = (known: AlikeLots[]) =>
      replayedSampleOf(known, ({ size }) => ({ sampleSize: sampleOf(size), acceptanceNumber: allowed }), replayOnce())
    const trial = tried(history)
    let accepted = 0
    let shipped = 0
    const sum = { rejected: 0, rejectedGood: 0, screened: 0 }
    for (const { size, all, tooMany } of lots) {
      const lot = { N: size, D: all.found, n: sampleOf(size), c: allowed }
      if (all.found >= tooMany) accepted += exactAtMost(lot)
      shipped += exactShipped(lot)
      const rejection = 1 - exactAtMost(lot)
      sum.rejected += rejection
      if (all.found < tooMany) sum.rejectedGood += rejection
      sum.screened += rejection * (size - lot.n)
    }
    const tests = lots.reduce((sum, lot) => sum + sampleOf(lot.size), 0)
    expect(trial.acceptedTooMany).toBeCloseTo(accepted, 12)
    expect(trial.shipped).toBeCloseTo(shipped, 10)
    expect(trial.rejected).toBeCloseTo(sum.rejected, 10)
    expect(trial.rejectedGood).toBeCloseTo(sum.rejectedGood, 10)
    expect(trial.tests).toBe(tests)
    const samples = { testing: tests * 160, escapes: shipped * 9500 }
    const returns = sum.rejected * 32_000
    const screened = sum.screened * 160
    expectCost(trial.cost, { ...samples, returns, screening: 0 })
    expectCost(tried(screening).cost, { ...samples, returns: 0, screening: screened })
  })

  // Ten lots tested whole, and the sums of a reader of the page apart from this program: 2,795 tests fewer than all the cords,
  // each with .54 in cords that escape and .45 in returned lots; where rejected lots are screened 1,710 fewer, each with .88.
  test('of ten lots comes to the costs a test that were worked out apart', () => {
    const tried = (afterRejection: AlikeLots['afterRejection']) =>
      replayedSampleOf(
        tenLots(afterRejection),
        ({ size }) => ({ sampleSize: Math.ceil(size / 10), acceptanceNumber: 0 }),
        replayOnce(),
      )
    const all = tenLots('return').reduce((sum, { size }) => sum + size, 0)
    const { tests, rejected, cost } = tried('return')
    const spared = all - tests
    expect(spared).toBe(2795)
    expect(rejected).toBeCloseTo(4.1, 2)
    expect(cost.escapes / spared / 100).toBeCloseTo(0.54, 2)
    expect(cost.returns / spared / 100).toBeCloseTo(0.45, 2)
    const screened = tried('screen').cost
    expect(screened.escapes / 1710 / 100).toBeCloseTo(0.88, 2)
  })
})

function expectCost(cost: Record<string, number>, parts: Record<string, number>): void {
  for (const [part, cents] of Object.entries(parts)) expect(cost[part]).toBeCloseTo(cents, 5)
  const total = Object.values(parts).reduce((sum, cents) => sum + cents, 0)
  expect(cost.total).toBeCloseTo(total, 5)
}

function tenLots(afterRejection: AlikeLots['afterRejection']): AlikeLots[] {
  const desk = { costTestCents: 140, costEscapeCents: 4200, costReturnCents: 26_000 }
  const rack = { costTestCents: 160, costEscapeCents: 9500, costReturnCents: 32_000 }
  return (
    [
      [240, 0, 8, desk],
      [264, 40, 8, desk],
      [240, 15, 4, rack],
      [288, 0, 5, rack],
      [288, 6, 5, rack],
      [300, 2, 5, rack],
      [312, 14, 5, rack],
      [336, 10, 6, rack],
      [360, 0, 6, rack],
      [480, 2, 8, rack],
    ] as const
  ).map(([size, found, tooMany, costs]) => ({
    ...{ lots: 1, size, found, tooMany, byPlan: true, catchOf100: '90', afterRejection },
    ...costs,
  }))
}

describe('the same effort', () => {
  test('is the largest number that spends no more tests', () => {
    const effort = samplesBeside(history, { percent: '10', acceptanceNumber: 0 }, replayOnce())
    if (!effort) throw new Error('there are lots')
    const testsOf = (number: number) => lots.reduce((sum, lot) => sum + Math.min(number, lot.size), 0)
    expect(effort.fixed.tests).toBe(testsOf(effort.number))
    expect(effort.fixed.tests).toBeLessThanOrEqual(effort.share.tests)
    expect(testsOf(effort.number + 1)).toBeGreaterThan(effort.share.tests)
  })

  test('tests a smaller lot whole and shows sizes from the smallest to the largest', () => {
    const effort = samplesBeside(history, { percent: '90', acceptanceNumber: 0 }, replayOnce())
    expect(effort?.sizes.map(({ size }) => size)).toEqual([25, 33, 40, 60, 90])
    for (const { size, byNumber, byShare } of effort?.sizes ?? []) {
      expect(byNumber).toBe(Math.min(size, effort?.number ?? 0))
      expect(byShare).toBe(Math.ceil((size * 9) / 10))
    }
  })

  test('beside it stands the sample that keeps each lot’s own risk, the smallest that does', () => {
    const effort = samplesBeside(history, { percent: '10', acceptanceNumber: 0 }, replayOnce())
    let [tests, shipped] = [0, 0]
    for (const { size, all, tooMany } of lots) {
      let n = 1
      while (n < size && exactAtMost({ N: size, D: tooMany, n, c: 0 }) > 0.05) n += 1
      tests += n
      shipped += exactShipped({ N: size, D: all.found, n, c: 0 })
    }
    expect(effort?.risk.tests).toBe(tests)
    expect(effort?.risk.shipped).toBeCloseTo(shipped, 10)
  })

  test('of no lots is none', () => {
    expect(samplesBeside([], { percent: '10', acceptanceNumber: 0 }, replayOnce())).toBeUndefined()
  })
})

describe('the sample of least expected cost, looking back', () => {
  // Every single plan of the lot priced by sums over the beta-binomial, with the prior that the lots' own page names; none of the engine's search.
  test.each(['return', 'screen'] as const)(
    'is the cheapest of all single plans where rejected lots are: %s',
    (after) => {
      const known = tenLots(after)
      const least = leastCostSamples(known)
      const prior = priorOfNextLot(known.map(({ size, found }) => ({ sampleSize: size, found })))
      for (const lot of known.slice(0, 4)) {
        const chosen = least?.(lot)
        const cheapest = cheapestPlan(lot, prior)
        expect(chosen && priced(lot, chosen, prior)).toBeCloseTo(cheapest, 4)
      }
    },
  )

  test('is none under five lots', () => {
    expect(leastCostSamples(tenLots('return').slice(0, 4))).toBeUndefined()
    expect(leastCostSamples(tenLots('return').slice(0, 5))).toBeDefined()
  })
})

type Belief = { a: number; b: number }
type Sample = { sampleSize: number; acceptanceNumber: number }

/** Chances of 0, 1, 2 … nonconforming in n cords: the urn of Pólya, cord by cord. */
function urn(n: number, { a, b }: Belief): number[] {
  let row = [1]
  for (let drawn = 0; drawn < n; drawn++) {
    const next = Array.from({ length: drawn + 2 }, () => 0)
    for (const [found, chance] of row.entries()) {
      const bad = (a + found) / (a + b + drawn)
      next[found] = (next[found] ?? 0) + chance * (1 - bad)
      next[found + 1] = (next[found + 1] ?? 0) + chance * bad
    }
    row = next
  }
  return row
}

function costOf(lot: AlikeLots, { sampleSize, acceptanceNumber }: Sample, { a, b }: Belief, row: number[]): number {
  const rest = lot.size - sampleSize
  const rejection = lot.afterRejection === 'return' ? lot.costReturnCents : rest * lot.costTestCents
  return row.reduce((sum, chance, found) => {
    const escaping = (rest * (a + found)) / (a + b + sampleSize)
    return sum + chance * (found <= acceptanceNumber ? escaping * lot.costEscapeCents : rejection)
  }, sampleSize * lot.costTestCents)
}

function priced(lot: AlikeLots, sample: Sample, prior: Belief): number {
  return costOf(lot, sample, prior, urn(sample.sampleSize, prior))
}

function cheapestPlan(lot: AlikeLots, prior: Belief): number {
  let least = Number.POSITIVE_INFINITY
  let row = [1]
  for (let n = 0; n <= lot.size; n++) {
    row = urn(n, prior)
    for (let c = 0; c <= Math.min(n, 12); c++)
      least = Math.min(least, costOf(lot, { sampleSize: n, acceptanceNumber: c }, prior, row))
  }
  return least
}
