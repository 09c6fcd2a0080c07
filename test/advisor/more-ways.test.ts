// Two samples, groups and the standard's plan on the open page, against an enumeration in whole numbers and the published table.
import { describe, expect, test } from 'vitest'
import { chanceOf, moreWays } from '../../app/advisor/more-ways.ts'
import { questionFields, questionFrom } from '../../app/advisor/question.ts'
import { compareTask } from '../../app/advisor/tasks.ts'
import { byOrders, lotOf } from '../statistics/plans/orders.ts'
import { choose, quotient } from '../support/exact.ts'

function asking(typed: Record<string, string>) {
  const reading = questionFrom(questionFields.parse(typed))
  if (reading.kind !== 'question') throw new Error(JSON.stringify(reading.causes))
  return reading.question
}

type Numbers = { first: number; accept: number; both: number; reject: number }

/** Every count x in the first sample and y in the second of a lot of N with D nonconforming. */
function enumerated({ first, accept, both, reject }: Numbers, N: number, D: number) {
  const second = both - first
  let accepted = 0n
  let shipped = 0n
  let tested = 0
  const all = choose(N, first) * choose(N - first, second)
  for (let x = 0; x <= Math.min(first, D); x++)
    for (let y = 0; y <= Math.min(second, D - x); y++) {
      const ways = choose(D, x) * choose(N - D, first - x) * choose(D - x, y) * choose(N - D - first + x, second - y)
      const early = x <= accept
      if (early || x + y < reject) accepted += ways
      if (early || x + y < reject) shipped += ways * BigInt(D - x - (early ? 0 : y))
      // the r-th of x in n random places lies at r(n + 1)/(x + 1) on average
      const untilReject = (r: number, n: number, found: number) => (found >= r ? (r * (n + 1)) / (found + 1) : n)
      const here = x >= reject ? untilReject(reject, first, x) : first
      const more = early || x >= reject ? 0 : untilReject(reject - x, second, y)
      tested += quotient(ways, all) * (here + more)
    }
  return { accepted: quotient(accepted, all), shipped: quotient(shipped, all), tested }
}

describe('groups of 30', () => {
  test.each([
    { lot: '480', limit: '5', good: '' },
    { lot: '3000', limit: '2%', good: '20' },
  ])('are exact in %o by counting every order, and keep both risks', (typed) => {
    const question = asking(typed)
    const { lotSize: N, tooMany, good } = question
    const { groups } = moreWays(question)
    if (!groups) throw new Error('no plan by groups')
    expect(groups.stages.map(({ sampleSize }) => sampleSize)).toEqual(groups.stages.map((_, at) => 30 * (at + 1)))
    const bad = byOrders(groups.stages, lotOf(N, tooMany))
    const spared = byOrders(groups.stages, lotOf(N, good.nonconforming))
    expect(groups.acceptance.yes).toBeCloseTo(bad.acceptance, 11)
    expect(groups.producersRisk.yes).toBeCloseTo(spared.rejection, 11)
    expect(bad.acceptance).toBeLessThanOrEqual(0.05)
    expect(spared.rejection).toBeLessThanOrEqual(0.05)
  })

  test('are left out where one group is the whole plan, and where there is none', () => {
    expect(moreWays(asking({ lot: '60', limit: '30' })).groups).toBeUndefined()
    expect(moreWays(asking({ lot: '480', limit: '5', good: '0' })).groups).toBeUndefined()
  })
})

describe('two samples', () => {
  test.each([
    { lot: '480', limit: '5', good: '' },
    { lot: '60', limit: '12', good: '2' },
    { lot: '600', limit: '2%', good: '1' },
  ])('are exact in %o, and keep both risks', (typed) => {
    const question = asking(typed)
    const { lotSize: N, tooMany, good } = question
    const { double } = moreWays(question)
    const [one, two] = double?.stages ?? []
    if (!double || !one || !two) throw new Error('no plan of two samples')
    const plan = {
      first: one.sampleSize,
      accept: one.acceptanceNumber,
      both: two.sampleSize,
      reject: two.rejectionNumber,
    }
    const bad = enumerated(plan, N, tooMany)
    const spared = enumerated(plan, N, good.nonconforming)
    expect(double.acceptance.yes).toBeCloseTo(bad.accepted, 12)
    expect(double.acceptance.no).toBeCloseTo(1 - bad.accepted, 12)
    expect(double.producersRisk.yes).toBeCloseTo(1 - spared.accepted, 12)
    expect(double.averageOutgoing).toBeCloseTo(bad.shipped, 9)
    expect(double.average).toBeCloseTo(bad.tested, 8)
    expect(bad.accepted).toBeLessThanOrEqual(0.05)
    expect(1 - spared.accepted).toBeLessThanOrEqual(0.05)
    const from = double.detectsFrom ?? Number.NaN
    expect(enumerated(plan, N, from).accepted).toBeLessThanOrEqual(0.05)
    expect(enumerated(plan, N, from - 1).accepted).toBeGreaterThan(0.05)
  })

  test('are left out where there are none, or the search would look at too much', () => {
    expect(moreWays(asking({ lot: '10', limit: '1' })).double).toBeUndefined()
    expect(moreWays(asking({ lot: '1', limit: '1' })).double).toBeUndefined()
    expect(moreWays(asking({ lot: '10000', limit: '100', good: '99' })).double).toBeUndefined()
  })

  test('have a chance of 0 only where acceptance is impossible, and of 1 where rejection is', () => {
    const stages = [
      { sampleSize: 4, acceptanceNumber: 0, rejectionNumber: 2 },
      { sampleSize: 6, acceptanceNumber: 1, rejectionNumber: 2 },
    ]
    const chance = (D: number) => chanceOf({ stages, sampleSize: 6, acceptanceNumber: 1 }, 10, D)
    expect(chance(1)).toEqual({ yes: 1, no: 0 })
    expect(chance(6).yes).toBeGreaterThan(0) // four conforming cords may be the first
    expect(chance(7)).toEqual({ yes: 0, no: 1 })
  })

  test('stand in the table; the curves are those of the advised way and of the plans the reader names', () => {
    const { comparison, curves } = compareTask.work(asking({ lot: '480', limit: '5', own: '50/1', aql: '1.0' }))
    const kinds = comparison.alternatives.map(({ kind }) => kind)
    expect(kinds).toEqual([
      'zero-acceptance',
      'single',
      'double',
      'groups',
      'percentage',
      'contract',
      'standard',
      'every-cord',
      'no-test',
    ])
    expect(curves.drawn.map(({ way }) => way.kind)).toEqual(['zero-acceptance', 'percentage', 'contract', 'standard'])
  })
})

describe('the standard’s plan', () => {
  // Source: MIL-STD-105E (1989), tables I and II-A: 480 at level II is H; H at 1.0 is 50 and 1; a lot of 40 is D, whose arrow at 1.0 leads to 13 and 0.
  test.each([
    [{ lot: '480', limit: '5', aql: '1.0' }, 50, 1],
    [{ lot: '480', limit: '5', aql: '0,65' }, 80, 1],
    [{ lot: '40', limit: '2', aql: '1' }, 13, 0],
  ])('for %o is %i with acceptance number %i', (typed, sampleSize, acceptanceNumber) => {
    expect(moreWays(asking(typed)).standard).toMatchObject({ kind: 'standard', sampleSize, acceptanceNumber })
  })

  test('is none without a limit, and none for a single cord', () => {
    expect(moreWays(asking({ lot: '480', limit: '5' })).standard).toBeUndefined()
    expect(moreWays(asking({ lot: '1', limit: '1', aql: '1.0' })).standard).toBeUndefined()
  })
})
