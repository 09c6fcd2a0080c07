// Units of a first fetch beyond a plan's verdict: against every order of a small lot, walked unit by unit, and against a closed form.
import { describe, expect, test } from 'vitest'
import { beyondVerdictInLot, beyondVerdictUnderPrior } from '../../../app/statistics/economics/first-fetch.ts'
import { unitsSparedUnderPrior } from '../../../app/statistics/economics/stopping.ts'
import type { Stages } from '../../../app/statistics/plans/plan.ts'

const stage = (sampleSize: number, acceptanceNumber: number, rejectionNumber: number) => ({
  ...{ sampleSize, acceptanceNumber, rejectionNumber },
})

const cases: { what: string; plan: Stages; fetch: { sampleSize: number; rejectionNumber: number } }[] = [
  {
    what: 'none allowed, the fetch inside',
    plan: { stages: [stage(7, 0, 1)] },
    fetch: { sampleSize: 4, rejectionNumber: 2 },
  },
  {
    what: 'none allowed, the fetch as large',
    plan: { stages: [stage(5, 0, 1)] },
    fetch: { sampleSize: 5, rejectionNumber: 3 },
  },
  {
    what: 'more allowed than by the fetch',
    plan: { stages: [stage(7, 2, 3)] },
    fetch: { sampleSize: 4, rejectionNumber: 2 },
  },
  {
    what: 'two samples, the fetch in the first',
    plan: { stages: [stage(5, 0, 2), stage(8, 1, 2)] },
    fetch: { sampleSize: 4, rejectionNumber: 3 },
  },
  {
    what: 'two samples, the fetch in the second',
    plan: { stages: [stage(3, 0, 2), stage(8, 1, 2)] },
    fetch: { sampleSize: 6, rejectionNumber: 3 },
  },
  {
    what: 'groups that accept late',
    plan: { stages: [stage(2, -1, 1), stage(4, -1, 1), stage(6, 0, 1)] },
    fetch: { sampleSize: 5, rejectionNumber: 2 },
  },
  {
    what: 'a stage begun with its rejection number found',
    plan: { stages: [stage(3, 0, 3), stage(6, 0, 1)] },
    fetch: { sampleSize: 5, rejectionNumber: 4 },
  },
  { what: 'a draw with fewer', plan: { stages: [stage(3, 0, 1)] }, fetch: { sampleSize: 4, rejectionNumber: 2 } },
]

const lotSize = 9

/** Every order of the lot's units, each tested as the two plans ask: by whole numbers, counted. */
function byEveryOrder(
  { stages }: Stages,
  fetch: { sampleSize: number; rejectionNumber: number },
  nonconforming: number,
) {
  const sum = { afterAcceptance: 0, foundAfterAcceptance: 0, afterRejection: 0 }
  let orders = 0
  for (let bits = 0; bits < 2 ** lotSize; bits++) {
    const order = Array.from({ length: lotSize }, (_, at) => (bits >> at) & 1)
    const found = (units: number) => order.slice(0, units).reduce((total, each) => total + each, 0)
    if (found(lotSize) !== nonconforming) continue
    orders++
    if ((stages.at(-1)?.sampleSize ?? 0) < fetch.sampleSize) continue
    const [units, accepts] = verdictIn(stages, found)
    let last = 0
    while (last < fetch.sampleSize && found(last) < fetch.rejectionNumber) last++
    if (last <= units) continue
    if (accepts) {
      sum.afterAcceptance += last - units
      sum.foundAfterAcceptance += found(last) - found(units)
    } else sum.afterRejection += last - units
  }
  return {
    afterAcceptance: sum.afterAcceptance / orders,
    foundAfterAcceptance: sum.foundAfterAcceptance / orders,
    afterRejection: sum.afterRejection / orders,
  }
}

/** Units tested until the verdict, and whether it accepts. */
function verdictIn(stages: Stages['stages'], found: (units: number) => number): [number, boolean] {
  let tested = 0
  for (const { sampleSize, acceptanceNumber, rejectionNumber } of stages) {
    while (tested < sampleSize && found(tested) < rejectionNumber) tested++
    if (found(tested) >= rejectionNumber) return [tested, false]
    if (found(tested) <= acceptanceNumber) return [tested, true]
  }
  throw new Error('a plan decides at its last stage')
}

describe.each(cases)('$what', ({ plan, fetch }) => {
  const quantities = ['afterAcceptance', 'foundAfterAcceptance', 'afterRejection'] as const
  const every = Array.from({ length: lotSize + 1 }, (_, nonconforming) => byEveryOrder(plan, fetch, nonconforming))

  test.each(every.map((_, nonconforming) => nonconforming))('in a lot of 9 with %i nonconforming', (nonconforming) => {
    const added = beyondVerdictInLot(plan, fetch, { lotSize, nonconforming })
    for (const each of quantities) expect(added[each]).toBeCloseTo(every[nonconforming]?.[each] ?? Number.NaN, 12)
  })

  // under Beta(1, 1) each number nonconforming of the lot is as likely as another
  test('under a flat prior, the mean over all lots', () => {
    const added = beyondVerdictUnderPrior(plan, fetch, { a: 1, b: 1 })
    for (const each of quantities)
      expect(added[each]).toBeCloseTo(every.reduce((sum, lot) => sum + lot[each], 0) / (lotSize + 1), 12)
  })
})

// With one sample that allows fewer than the fetch, what is added is what the fetch spares less if it stops at its own number.
test.each([
  { plan: stage(216, 0, 1), fetch: stage(50, 1, 2), prior: { a: 0.5, b: 60 } },
  { plan: stage(217, 1, 2), fetch: stage(80, 2, 3), prior: { a: 2, b: 98 } },
  { plan: stage(500, 3, 4), fetch: stage(315, 7, 8), prior: { a: 1, b: 1 } },
])('of one sample by the difference of two early stops', ({ plan, fetch, prior }) => {
  const spared = (rejectionNumber: number) =>
    unitsSparedUnderPrior({ stages: [stage(fetch.sampleSize, rejectionNumber - 1, rejectionNumber)] }, prior)
  const { afterRejection, afterAcceptance } = beyondVerdictUnderPrior({ stages: [plan] }, fetch, prior)
  expect(afterRejection).toBeCloseTo(spared(plan.rejectionNumber) - spared(fetch.rejectionNumber), 9)
  expect(afterAcceptance).toBe(0)
})

test.each([
  { fetch: { sampleSize: 0, rejectionNumber: 1 }, named: 'fetch.sampleSize' },
  { fetch: { sampleSize: 1, rejectionNumber: 0 }, named: 'fetch.rejectionNumber' },
])('names $named where it is none', ({ fetch, named }) => {
  expect(() => beyondVerdictUnderPrior({ stages: [stage(3, 0, 1)] }, fetch, { a: 1, b: 1 })).toThrow(named)
})
