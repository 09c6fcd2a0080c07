// The inspection state of a series from the standard's own verdicts: from counts alone.
import { describe, expect, test } from 'vitest'
import type { FrozenStandard } from '../../app/lots/rules/first-fetch.ts'
import type { InspectedLotFacts } from '../../app/series/inspected-lots.ts'
import { type SeriesNote, switchingAfter } from '../../app/series/switching.ts'
import { inspectedLot } from '../support/inspected-lot.ts'

const terms = { acceptanceQualityLimit: '1.0', level: 'II' } as const

// 2,000 cords, level II: letter K. MIL-STD-105E (1989), Tables II-A and II-C at 1.0, read: normal 125, Ac 3, one limit tighter 2; reduced 50, Ac 1, Re 4.
const of2000 = { limit: '1.0', level: 'II', letter: 'K', standing: 'read' } as const
const normal: FrozenStandard = {
  ...of2000,
  severity: 'normal',
  ...{ sampleSize: 125, acceptanceNumber: 3, rejectionNumber: 4 },
}
const reduced: FrozenStandard = {
  ...of2000,
  severity: 'reduced',
  ...{ sampleSize: 50, acceptanceNumber: 1, rejectionNumber: 4 },
}
const tightened: FrozenStandard = {
  ...of2000,
  severity: 'tightened',
  ...{ sampleSize: 125, acceptanceNumber: 2, rejectionNumber: 3 },
}
const byPlan = (lotId: number, standard: FrozenStandard, found: number) =>
  inspectedLot(lotId, found, { size: 2000, standard })
const wanted: SeriesNote = { kind: 'reduced-wanted', reason: 'steady', at: new Date(Date.UTC(2030, 0, 1)) }

describe('the switching score', () => {
  // ISO 2859-1:1999, 9.3.3.2, from memory: 3 where the lot would have been accepted one limit tighter, else back to 0.
  test.each([
    [[0, 2, 1], 9],
    [[0, 2, 3], 0],
    [[3, 2], 3],
  ])('of lots by the plan for normal inspection with %j found is %i', (found, score) => {
    const lots = found.map((each, at) => byPlan(at + 1, normal, each))
    const switching = switchingAfter(lots, [], terms)
    expect(switching.state).toMatchObject({ inspection: 'normal', score })
    expect(switching.score).toEqual({ least: score, most: score })
  })

  test('of lots by a stricter plan rises with clean samples alone', () => {
    expect(switchingAfter([byPlan(1, tightened, 0)], [], terms).state).toMatchObject({ score: 3 })
    expect(switchingAfter([byPlan(1, tightened, 1)], [], terms).state).toMatchObject({ score: 0 })
  })
})

describe('reduced inspection', () => {
  const earned = Array.from({ length: 10 }, (_, at) => byPlan(at + 1, normal, 0))

  test('is reached after ten clean lots where it is wanted, and kept by lots within the numbers', () => {
    expect(switchingAfter(earned, [], terms).inspection).toBe('normal')
    expect(switchingAfter(earned, [wanted], terms).inspection).toBe('reduced')
    expect(switchingAfter([...earned, byPlan(11, reduced, 1)], [wanted], terms).inspection).toBe('reduced')
  })

  // MIL-STD-105E, 10.1.4 and 4.7.4, read: between the acceptance and the rejection number the lot is accepted, the next is normal.
  test('ends with a lot between the two numbers, which is itself accepted', () => {
    const { state, lastChange, verdicts } = switchingAfter([...earned, byPlan(11, reduced, 2)], [wanted], terms)
    expect(state).toMatchObject({ inspection: 'normal', reason: 'between the numbers under reduced inspection' })
    expect(lastChange).toMatchObject({ from: 'reduced', lotId: 11 })
    expect(verdicts.at(-1)).toMatchObject({ verdict: 'accept' })
  })

  test('ends with a lot that is not accepted', () => {
    expect(switchingAfter([...earned, byPlan(11, reduced, 4)], [wanted], terms).state).toMatchObject({
      inspection: 'normal',
      reason: 'not accepted under reduced inspection',
    })
  })
})

describe('a lot without a verdict', () => {
  const untested = (lotId: number, recorded: number, found: number): InspectedLotFacts =>
    inspectedLot(lotId, found, { picks: [{ sampleSize: 50, recorded, found }] })

  test.each([
    { what: 'stopped at the first found', lot: untested(12, 17, 1), verdict: 'not known', inspection: 'not-known' },
    { what: 'one cord short', lot: untested(12, 49, 0), verdict: 'not known', inspection: 'not-known' },
    {
      what: 'stopped at the standard’s own rejection number',
      lot: untested(12, 17, 2),
      verdict: 'reject',
      inspection: 'normal',
    },
    { what: 'complete', lot: untested(12, 50, 1), verdict: 'accept', inspection: 'normal' },
    {
      what: 'of a draw with fewer',
      lot: inspectedLot(12, 0, { drawn: 49, picks: [{ sampleSize: 50, recorded: 49, found: 0 }] }),
      verdict: 'not known',
      inspection: 'not-known',
    },
  ])('$what: $verdict', ({ lot, verdict, inspection }) => {
    const switching = switchingAfter([inspectedLot(1, 0), lot], [], terms)
    expect(switching.verdicts.at(-1)).toMatchObject({ lotId: 12, verdict, replayed: false })
    expect(switching.inspection).toBe(inspection)
    if (inspection === 'not-known')
      expect(switching).toMatchObject({
        lastChange: { from: 'normal', to: 'not-known', lotId: 12 },
        unsettled: [12],
        possible: ['normal'],
        score: { least: 0, most: 4 },
      })
  })

  test('may have been the second not accepted: the next lot gets the strictest plan that is possible', () => {
    const lots = [inspectedLot(1, 2), untested(2, 17, 1)]
    expect(switchingAfter(lots, [], terms)).toMatchObject({
      inspection: 'not-known',
      possible: ['tightened', 'normal'],
      state: { inspection: 'tightened' },
      knownAfter: 5,
    })
  })

  // By hand: accepted leaves normal with nothing against it, not accepted leaves normal with one against it for the next four lots.
  test('under normal inspection is settled by four lots accepted after it, and not by three', () => {
    const lots = [untested(1, 17, 1), ...[2, 3, 4].map((lotId) => inspectedLot(lotId, 0))]
    expect(switchingAfter(lots, [], terms)).toMatchObject({ inspection: 'not-known', knownAfter: 1, unsettled: [1] })
    expect(switchingAfter([...lots, inspectedLot(5, 0)], [], terms)).toMatchObject({
      inspection: 'normal',
      lastChange: { from: 'not-known', to: 'normal', lotId: 5 },
      score: { least: 8, most: 10 },
      knownAfter: undefined,
    })
  })

  test('that cannot be accepted any more is as good as not accepted, though the draw had fewer than the plan asks for', () => {
    const lot = inspectedLot(2, 2, { drawn: 13, picks: [{ sampleSize: 50, recorded: 13, found: 2 }] })
    expect(switchingAfter([inspectedLot(1, 2), lot], [], terms)).toMatchObject({
      inspection: 'tightened',
      verdicts: [{ verdict: 'reject' }, { verdict: 'not known' }],
    })
  })

  test('leaves open whether a series is discontinued, which only the supplier’s acting settles', () => {
    const lots = [1, 2, 3, 4, 5, 6].map((lotId) => inspectedLot(lotId, 2))
    const open = switchingAfter([...lots, untested(7, 3, 0)], [], terms)
    expect(open).toMatchObject({ possible: ['discontinued', 'tightened'], knownAfter: undefined })
    const acted: SeriesNote = { kind: 'supplier-acted', reason: 'new tool', at: new Date(Date.UTC(2031, 0, 7, 13)) }
    const after = switchingAfter([...lots, untested(7, 3, 0)], [acted], terms)
    expect(after).toMatchObject({ inspection: 'not-known', possible: ['tightened'], knownAfter: 5 })
  })
})

describe('a lot that was planned before the standard’s plan was frozen with it', () => {
  // 480 cords, level II, 1.0: MIL-STD-105E (1989), Tables II-A and II-B, read: normal 50, Ac 1; tightened 80, Ac 1.
  const old = (lotId: number, picks: [number, number, number][], wanted: Partial<InspectedLotFacts> = {}) =>
    inspectedLot(lotId, 0, {
      standard: undefined,
      picks: picks.map(([sampleSize, recorded, found]) => ({ sampleSize, recorded, found })),
      ...wanted,
    })

  test('is taken by the plan of the state when it was planned, on so many of its first picks', () => {
    const lots = [
      old(1, [[50, 50, 2]]),
      old(2, [[50, 50, 2]]),
      old(3, [
        [50, 50, 1],
        [80, 80, 2],
      ]),
    ]
    const { verdicts, state } = switchingAfter(lots, [], terms)
    expect(verdicts).toMatchObject([
      { verdict: 'reject', replayed: true, standard: { severity: 'normal', sampleSize: 50 } },
      { verdict: 'reject' },
      { verdict: 'reject', standard: { severity: 'tightened', sampleSize: 80 } },
    ])
    expect(state).toMatchObject({ inspection: 'tightened', notAccepted: 1 })
  })

  test('by that of the time of its plan, and not of its decision', () => {
    const early = new Date(Date.UTC(2031, 0, 1, 9)) // before lots 1 and 2 were decided
    const lots = [
      old(1, [[50, 50, 2]]),
      old(2, [[50, 50, 2]]),
      old(
        3,
        [
          [50, 50, 1],
          [80, 80, 2],
        ],
        { frozenAt: early },
      ),
    ]
    expect(switchingAfter(lots, [], terms).verdicts.at(-1)).toMatchObject({
      verdict: 'accept',
      standard: { severity: 'normal' },
    })
  })

  test('has no verdict where its first picks are not all recorded, or not so many were drawn', () => {
    expect(switchingAfter([old(1, [[50, 17, 1]])], [], terms).inspection).toBe('not-known')
    expect(switchingAfter([old(1, [], { drawn: 32 })], [], terms).inspection).toBe('not-known')
  })
})

test('lots outside the series are counted apart', () => {
  const lots = [inspectedLot(1, 0), inspectedLot(2, 2, { isolated: true }), inspectedLot(3, 2, { size: 1 })]
  expect(switchingAfter(lots, [], terms)).toMatchObject({ outside: 2, verdicts: [{ lotId: 1 }], inspection: 'normal' })
})

// MIL-STD-105E, 4.7.1 (read): two of five consecutive lots not accepted on original inspection tighten; resubmitted ones are ignored.
test.each([{ resubmissionOf: 1 }, { replacementOf: 1 }])('a lot with %j neither tightens nor brings back', (former) => {
  const again = (lotId: number, found: number) => inspectedLot(lotId, found, former)
  const one = switchingAfter([inspectedLot(1, 2), again(2, 2), inspectedLot(3, 0)], [], terms)
  expect(one).toMatchObject({ inspection: 'normal', outside: 1, verdicts: [{ lotId: 1 }, { lotId: 3 }] })
  const two = [inspectedLot(1, 2), inspectedLot(2, 2)]
  const four = [3, 4, 5, 6].map((lotId) => inspectedLot(lotId, 0))
  expect(switchingAfter([...two, ...four, again(7, 0)], [], terms).inspection).toBe('tightened')
  expect(switchingAfter([...two, ...four, inspectedLot(7, 0)], [], terms).inspection).toBe('normal')
})
