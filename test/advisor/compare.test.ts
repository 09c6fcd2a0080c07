// The ways of testing side by side, the advice and the curves, against exact whole-number arithmetic.
import { describe, expect, test } from 'vitest'
import { compareAlternatives, isSampled, type SampledAlternative } from '../../app/advisor/compare.ts'
import { curvesOf } from '../../app/advisor/curve.ts'
import { type Question, questionFields, questionFrom } from '../../app/advisor/question.ts'
import { exactAtMost, exactShipped } from '../support/exact.ts'

function asking(typed: Record<string, string>): Question {
  const reading = questionFrom(questionFields.parse(typed))
  if (reading.kind !== 'question') throw new Error(JSON.stringify(reading.causes))
  return reading.question
}

/** `kind/acceptance number` to the way. */
function sampledBy(typed: Record<string, string>): Map<string, SampledAlternative> {
  const { alternatives } = compareAlternatives(asking(typed))
  return new Map(alternatives.filter(isSampled).map((way) => [`${way.kind}/${way.acceptanceNumber}`, way]))
}

describe('the ways of testing', () => {
  const example = { lot: '480', limit: '5', own: '50/1' }

  test('are every one of the six', () => {
    const kinds = compareAlternatives(asking(example)).alternatives.map((way) => way.kind)
    const all = ['zero-acceptance', 'single', 'percentage', 'contract', 'every-cord', 'no-test']
    expect(kinds).toEqual(all)
  })

  // Source: exact whole-number arithmetic in test/support/exact.ts.
  test.each([
    example,
    { lot: '480', limit: '5', confidence: '90', good: '1', percent: '20', own: '125/3' },
    { lot: '36', limit: '2', own: '13/0' },
    { lot: '1000', limit: '4%', good: '10', own: '80/2' },
    { lot: '60', limit: '50', own: '12/11', percent: '95' },
  ])('are exact in %o', (typed) => {
    const { lotSize: N, tooMany, good } = asking(typed)
    for (const way of sampledBy(typed).values()) {
      const plan = { N, n: way.sampleSize, c: way.acceptanceNumber }
      const accepted = exactAtMost({ ...plan, D: tooMany })
      expect(way.acceptance.yes, way.kind).toBeCloseTo(accepted, 12)
      expect(way.acceptance.no, way.kind).toBeCloseTo(1 - accepted, 12)
      expect(way.producersRisk.yes, way.kind).toBeCloseTo(1 - exactAtMost({ ...plan, D: good.nonconforming }), 12)
      expect(way.averageOutgoing, way.kind).toBeCloseTo(exactShipped({ ...plan, D: tooMany }), 9)
    }
  })

  test('say from how many nonconforming cords on they catch as often as wanted', () => {
    const ways = sampledBy(example)
    for (const way of ways.values()) {
      const from = way.detectsFrom ?? Number.NaN
      const plan = { N: 480, n: way.sampleSize, c: way.acceptanceNumber }
      expect(exactAtMost({ ...plan, D: from }), way.kind).toBeLessThanOrEqual(0.05)
      expect(exactAtMost({ ...plan, D: from - 1 }), way.kind).toBeGreaterThan(0.05)
    }
  })

  // Source: the same figure in a worked example of one nonconforming cord in 50 of 480: up to 42 may be in the lot (R phyper).
  test('show that 50/1 catches 95 of 100 lots of 480 from 43 on', () => {
    expect(sampledBy(example).get('contract/1')?.detectsFrom).toBe(43)
  })

  test('never say never: a chance is 0 only where the thing is impossible', () => {
    const ways = sampledBy({ lot: '1000000', limit: '500000', percent: '50', own: '3/2' })
    expect(ways.get('percentage/0')?.acceptance.yes).toBeGreaterThan(0)
    expect(ways.get('percentage/0')?.averageOutgoing).toBeGreaterThan(0)
    expect(ways.get('contract/2')?.acceptance.no).toBeGreaterThan(0)
    expect(sampledBy({ lot: '10', limit: '6', percent: '50' }).get('percentage/0')?.acceptance).toEqual({
      yes: 0,
      no: 1,
    })
  })

  test('leave nothing to a sample where every cord is tested, and everything where none is', () => {
    const { alternatives } = compareAlternatives(asking(example))
    const certain = { yes: 1, no: 0 }
    const never = { yes: 0, no: 1 }
    expect(alternatives.find(({ kind }) => kind === 'every-cord')).toMatchObject({
      sampleSize: 480,
      acceptance: never,
      averageOutgoing: 0,
    })
    expect(alternatives.find(({ kind }) => kind === 'no-test')).toMatchObject({
      sampleSize: 0,
      acceptance: certain,
      averageOutgoing: 5,
    })
  })
})

describe('the advice', () => {
  const advised = (typed: Record<string, string>) => compareAlternatives(asking(typed)).advised

  // Source: C(480 − n, 5) / C(480, 5), exact; 216 is the first n at or below 0.05.
  test('is 216 of 480 with none allowed where 5 are too many, and 78 on average in such a lot', () => {
    expect(exactAtMost({ N: 480, D: 5, n: 216, c: 0 })).toBeLessThanOrEqual(0.05)
    expect(exactAtMost({ N: 480, D: 5, n: 215, c: 0 })).toBeGreaterThan(0.05)
    const way = advised({ lot: '480', limit: '5', confidence: '95' })
    expect(way).toMatchObject({ kind: 'zero-acceptance', sampleSize: 216, acceptanceNumber: 0 })
    expect(isSampled(way) && Math.round(way.average)).toBe(78)
  })

  test('is the fewest cords that keep both risks where lots with 1 should rarely be sent back: 315 with one allowed', () => {
    const way = advised({ lot: '480', limit: '5', confidence: '95', good: '1', goodrisk: '5' })
    expect(way).toMatchObject({ kind: 'single', sampleSize: 315, acceptanceNumber: 1 })
    // Source: every smaller plan, by exact arithmetic. Two or more allowed catch even less.
    for (let n = 1; n < 315; n++)
      for (const c of [0, 1]) {
        const caught = exactAtMost({ N: 480, D: 5, n, c }) <= 0.05
        const spared = exactAtMost({ N: 480, D: 1, n, c }) >= 0.95
        expect(caught && spared, `${n}/${c}`).toBe(false)
      }
  })

  test('is every cord where nothing smaller does', () => {
    expect(advised({ lot: '10', limit: '1' }).kind).toBe('every-cord')
    expect(advised({ lot: '1', limit: '1' }).kind).toBe('every-cord')
    expect(advised({ lot: '50', limit: '2', confidence: '99', good: '1', goodrisk: '1' }).kind).toBe('every-cord')
  })

  test('stands first in the table, once', () => {
    const { alternatives, advised: first } = compareAlternatives(asking({ lot: '480', limit: '5', good: '1' }))
    expect(alternatives[0]).toBe(first)
    expect(alternatives.filter((way) => way === first)).toHaveLength(1)
  })

  // Source: smallest n with acceptance number 0 that finds out a lot with ⌈pN⌉ in 95 of 100 draws, recomputed in R (phyper);
  // for 100 and 1 % by hand: 95 of 100 miss the one in exactly 5 of 100 draws, and equality counts as met (R's rounding says 96).
  test.each([
    { lot: '50', n: [48, 48, 31, 22] },
    { lot: '100', n: [95, 78, 45, 25] },
    { lot: '200', n: [155, 105, 51, 27] },
    { lot: '500', n: [225, 129, 56, 28] },
    { lot: '1000', n: [258, 138, 57, 29] },
    { lot: '5000', n: [290, 147, 59, 29] },
  ])('for lots of $lot and 1, 2, 5 and 10 % is $n', ({ lot, n }) => {
    expect(['1%', '2%', '5%', '10%'].map((limit) => advised({ lot, limit }).sampleSize)).toEqual(n)
  })
})

describe('the curves', () => {
  test('run from a lot without any to one that the weakest plan catches, through the question itself', () => {
    const question = asking({ lot: '480', limit: '5' })
    const { most, drawn, marked } = curvesOf(question, compareAlternatives(question))
    expect(most).toBe(28)
    for (const { way, points } of drawn) {
      expect(points[0]).toEqual({ nonconforming: 0, accepted: { yes: 1, no: 0 } })
      expect(points.at(-1)?.nonconforming).toBe(28)
      for (const { nonconforming: D, accepted } of points)
        expect(accepted.yes).toBeCloseTo(exactAtMost({ N: 480, D, n: way.sampleSize, c: way.acceptanceNumber }), 12)
    }
    expect(marked[0]?.points.map(({ nonconforming }) => nonconforming)).toContain(5)
  })

  test('of a million cords hold no more points than can be seen', () => {
    const question = asking({ lot: '1000000', limit: '1%', own: '5000/20' })
    const { drawn } = curvesOf(question, compareAlternatives(question))
    expect(drawn).toHaveLength(3)
    for (const { points } of drawn) expect(points.length).toBeLessThan(130)
  })
})
