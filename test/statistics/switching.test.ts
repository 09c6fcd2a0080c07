// The switching rules, clause by clause. MIL-STD-105E, 4.7 and 4.8, was read; ISO 2859-1:1999, 9.3 and 9.4, is from memory.
import { describe, expect, test } from 'vitest'
import {
  afterLot,
  type Edition,
  type InspectedLot,
  resumed,
  type SwitchingState,
  scoreOfDouble,
  scoreOfSingle,
  startOfSeries,
  steadyEnded,
} from '../../app/statistics/switching.ts'

const lot: InspectedLot = {
  original: true,
  accepted: true,
  inGap: false,
  score: 3,
  steady: true,
  reducedWanted: true,
  withinLimitNumber: true,
}

/** Runs a series: `a` accepted, `r` not accepted, `s` submitted again and not accepted, `g` between the numbers. */
function series(lots: string, edition: Edition = '105E', change: Partial<InspectedLot> = {}, from = startOfSeries) {
  const kinds: Record<string, Partial<InspectedLot>> = {
    a: {},
    r: { accepted: false, score: 0 },
    s: { accepted: false, original: false, score: 0 },
    g: { inGap: true },
  }
  return [...lots].reduce<SwitchingState>(
    (state, k) => afterLot(state, { ...lot, ...change, ...kinds[k] }, edition),
    from,
  )
}

const tightened = series('rr')

describe('normal to tightened (4.7.1, 9.3.1): two of five or fewer consecutive lots not accepted', () => {
  test.each([
    { lots: 'rr', inspection: 'tightened' },
    { lots: 'rar', inspection: 'tightened' },
    { lots: 'raaar', inspection: 'tightened' },
    { lots: 'raaaar', inspection: 'normal' },
    { lots: 'aaaaaraaar', inspection: 'tightened' },
    { lots: 'rs', inspection: 'normal' },
    { lots: 'r', inspection: 'normal' },
  ])('$lots → $inspection', ({ lots, inspection }) => {
    for (const edition of ['105E', '1999'] as const) expect(series(lots, edition).inspection).toBe(inspection)
  })
})

describe('tightened to normal, or discontinued (4.7.2, 4.8, 9.3.2, 9.4)', () => {
  test.each([
    { lots: 'aaaa', inspection: 'tightened', reason: 'two of five not accepted' },
    { lots: 'aaaaa', inspection: 'normal', reason: 'five in a row accepted' },
    { lots: 'aaaaraaaa', inspection: 'tightened', reason: 'two of five not accepted' },
    { lots: 'rararara', inspection: 'tightened', reason: 'two of five not accepted' },
    { lots: 'rararaarr', inspection: 'discontinued', reason: 'five not accepted under tightened inspection' },
    { lots: 'rrrrr', inspection: 'discontinued', reason: 'five not accepted under tightened inspection' },
    { lots: 'rrrrsaaaaa', inspection: 'normal', reason: 'five in a row accepted' },
  ])('$lots → $inspection', ({ lots, inspection, reason }) => {
    expect(series(lots, '105E', {}, tightened)).toMatchObject({ inspection, reason })
  })

  test('a discontinued series moves only once the supplier has acted, and then under tightened inspection', () => {
    const stopped = series('rrrrr', '105E', {}, tightened)
    expect(series('aaaaaaaaaa', '105E', {}, stopped)).toEqual(stopped)
    expect(resumed(stopped)).toMatchObject({ inspection: 'tightened', acceptedInARow: 0, notAccepted: 0 })
    expect(resumed(startOfSeries)).toBe(startOfSeries)
  })

  test('back on normal, what was before does not count', () => {
    expect(series('rraaaaar').inspection).toBe('normal')
  })
})

describe('normal to reduced and back', () => {
  test('105E 4.7.3: ten lots in a row accepted, within the limit number, steady and wanted', () => {
    expect(series('a'.repeat(9)).inspection).toBe('normal')
    expect(series('a'.repeat(10))).toEqual({ inspection: 'reduced', reason: 'ten in a row accepted' })
    expect(series(`r${'a'.repeat(9)}`).inspection).toBe('normal')
    for (const missing of [{ steady: false }, { reducedWanted: false }, { withinLimitNumber: false }])
      expect(series('a'.repeat(15), '105E', missing).inspection).toBe('normal')
    expect(series('a', '105E', {}, series('a'.repeat(12), '105E', { withinLimitNumber: false })).inspection).toBe(
      'reduced',
    )
  })

  test('1999 9.3.3: a switching score of thirty is ten lots at 3 or fifteen at 2, and one lot without sets it back', () => {
    expect(series('a'.repeat(9), '1999').inspection).toBe('normal')
    expect(series('a'.repeat(10), '1999')).toEqual({ inspection: 'reduced', reason: 'switching score of thirty' })
    expect(series('a'.repeat(14), '1999', { score: 2 }).inspection).toBe('normal')
    expect(series('a'.repeat(15), '1999', { score: 2 }).inspection).toBe('reduced')
    const setBack = series('a', '1999', { score: 0 }, series('a'.repeat(9), '1999'))
    expect(setBack).toMatchObject({ inspection: 'normal', score: 0 })
    expect(series('a'.repeat(9), '1999', {}, setBack).inspection).toBe('normal')
  })

  test.each([
    { lots: 'a', steady: true, inspection: 'reduced', reason: 'ten in a row accepted' },
    { lots: 'r', steady: true, inspection: 'normal', reason: 'not accepted under reduced inspection' },
    { lots: 'g', steady: true, inspection: 'normal', reason: 'between the numbers under reduced inspection' },
    { lots: 'a', steady: false, inspection: 'normal', reason: 'production not steady' },
  ])('reduced, then $lots (steady $steady) → $inspection', ({ lots, steady, inspection, reason }) => {
    expect(series(lots, '105E', { steady }, series('a'.repeat(10)))).toMatchObject({ inspection, reason })
  })

  test('105E 4.7.4: ends at once where production is not steady any more, and nothing else is changed by that', () => {
    expect(steadyEnded(series('a'.repeat(10)))).toMatchObject({
      inspection: 'normal',
      reason: 'production not steady',
      acceptedInARow: 0,
    })
    for (const state of [startOfSeries, tightened]) expect(steadyEnded(state)).toBe(state)
  })
})

describe('the switching score of a lot (9.3.3.2, from memory)', () => {
  test.each([
    { found: 2, acceptanceNumber: 3, tighterAcceptanceNumber: 2, score: 3 },
    { found: 3, acceptanceNumber: 3, tighterAcceptanceNumber: 2, score: 0 },
    { found: 1, acceptanceNumber: 1, tighterAcceptanceNumber: 0, score: 2 },
    { found: 2, acceptanceNumber: 1, tighterAcceptanceNumber: 0, score: 0 },
    { found: 0, acceptanceNumber: 0, tighterAcceptanceNumber: 0, score: 2 },
    { found: 10, acceptanceNumber: 14, tighterAcceptanceNumber: 10, score: 3 },
  ])('found $found with acceptance number $acceptanceNumber', ({ score, ...single }) => {
    expect(scoreOfSingle(single)).toBe(score)
  })

  test('of a double plan counts acceptance at the first sample', () => {
    expect(scoreOfDouble({ foundFirst: 1, firstAcceptanceNumber: 1 })).toBe(3)
    expect(scoreOfDouble({ foundFirst: 2, firstAcceptanceNumber: 1 })).toBe(0)
    expect(() => scoreOfDouble({ foundFirst: -1, firstAcceptanceNumber: 1 })).toThrow('foundFirst')
  })
})

test('ten lots of 900 at 1.0, as they happened: the worked scenario of common practice', () => {
  // Own scenario: 80 units, acceptance number 2; found 0, 3, 1, 0, 4: lots 2 and 5 are not accepted, so lot 6 is tightened
  // (80, 1); 1, 0, 0, 1, 0 are accepted, so lot 11 is normal again and its score restarts. The score before: 3, 0, 3, 6, 0.
  let state: SwitchingState = startOfSeries
  const seen: (number | string)[] = []
  for (const found of [0, 3, 1, 0, 4, 1, 0, 0, 1, 0]) {
    const acceptanceNumber = state.inspection === 'tightened' ? 1 : 2
    const score = scoreOfSingle({ found, acceptanceNumber, tighterAcceptanceNumber: acceptanceNumber - 1 })
    state = afterLot(state, { ...lot, accepted: found <= acceptanceNumber, score }, '1999')
    seen.push(state.inspection === 'normal' ? state.score : state.inspection)
  }
  expect(seen).toEqual([3, 0, 3, 6, 'tightened', 'tightened', 'tightened', 'tightened', 'tightened', 0])
})
