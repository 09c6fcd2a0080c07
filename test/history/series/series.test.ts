// What the switching rules read of lots tested by the standard's own plans, and of double plans: from counts alone.
import { describe, expect, test } from 'vitest'
import type { CountedLot } from '../../../app/history/counted-lots.ts'
import { type SeriesNote, switchingAfter } from '../../../app/history/series/switching.ts'
import { lotOf } from '../../support/counted-lot.ts'

const terms = { acceptanceQualityLimit: '1.0', level: 'II' } as const

type Numbers = { sampleSize: number; acceptanceNumber: number }

/** A lot of 2,000 cords tested by a single plan, of which `found` of the sample did not conform. */
function byPlan(lotId: number, { sampleSize, acceptanceNumber }: Numbers, found: number): CountedLot {
  const sample = { recorded: sampleSize, found }
  const verdict = found > acceptanceNumber ? 'reject' : 'accept'
  const at = new Date(Date.UTC(2031, 0, lotId))
  return lotOf(lotId, 2000, 0, {
    planKind: 'single',
    ...{ sampleSize, acceptanceNumber, sample, all: sample },
    stages: [{ sampleSize, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }],
    decided: { outcome: verdict === 'accept' ? 'accepted' : 'returned', at, verdict, ...sample },
  })
}

// 2,000 cords, level II: letter K. MIL-STD-105E (1989), Tables II-A and II-C at 1.0, read: normal 125 and 3, one limit tighter 2; reduced 50, Ac 1, Re 4.
const normal = { sampleSize: 125, acceptanceNumber: 3 }
const reduced = { sampleSize: 50, acceptanceNumber: 3 }
const wanted: SeriesNote = { kind: 'reduced-wanted', reason: 'steady', at: new Date(Date.UTC(2030, 0, 1)) }

describe('the switching score', () => {
  // ISO 2859-1:1999, 9.3.3.2, from memory: 3 where the lot would have been accepted one limit tighter, else back to 0.
  test.each([
    [[0, 2, 1], 9],
    [[0, 2, 3], 0],
    [[3, 2], 3],
  ])('of lots by the standard’s own plan with %j found is %i', (found, score) => {
    const lots = found.map((each, at) => byPlan(at + 1, normal, each))
    expect(switchingAfter(lots, [], terms).state).toMatchObject({ inspection: 'normal', score })
  })

  test('of lots by another plan that allows 2 or more rises with clean samples alone', () => {
    const other = { sampleSize: 130, acceptanceNumber: 3 }
    expect(switchingAfter([byPlan(1, other, 0)], [], terms).state).toMatchObject({ score: 3 })
    expect(switchingAfter([byPlan(1, other, 0), byPlan(2, other, 1)], [], terms).state).toMatchObject({ score: 0 })
    expect(switchingAfter([byPlan(1, normal, 2)], [], undefined).state).toMatchObject({ score: 0 })
  })

  test('of a double plan rises where the first sample accepts', () => {
    const stages = [
      { sampleSize: 80, acceptanceNumber: 1, rejectionNumber: 4 },
      { sampleSize: 160, acceptanceNumber: 4, rejectionNumber: 5 },
    ]
    const double = (recorded: number) => {
      const lot = byPlan(1, { sampleSize: 160, acceptanceNumber: 4 }, 1)
      return { ...lot, stages, decided: lot.decided && { ...lot.decided, recorded } }
    }
    expect(switchingAfter([double(80)], [], terms).state).toMatchObject({ score: 3 })
    expect(switchingAfter([double(160)], [], terms).state).toMatchObject({ score: 0 })
  })
})

describe('reduced inspection', () => {
  const earned = Array.from({ length: 10 }, (_, at) => byPlan(at + 1, normal, 0))

  test('is reached after ten clean lots where it is wanted, and kept by lots within the numbers', () => {
    expect(switchingAfter(earned, [], terms).state.inspection).toBe('normal')
    expect(switchingAfter(earned, [wanted], terms).state.inspection).toBe('reduced')
    expect(switchingAfter([...earned, byPlan(11, reduced, 1)], [wanted], terms).state.inspection).toBe('reduced')
  })

  // MIL-STD-105E, 10.1.4 and 4.7.4, read: between the acceptance and the rejection number the lot is accepted, the next is normal.
  test('ends with a lot between the two numbers, which is itself accepted', () => {
    const { state, lastChange } = switchingAfter([...earned, byPlan(11, reduced, 2)], [wanted], terms)
    expect(state).toMatchObject({ inspection: 'normal', reason: 'between the numbers under reduced inspection' })
    expect(lastChange).toMatchObject({ from: 'reduced', lotId: 11 })
  })

  test('ends with a lot that is not accepted', () => {
    expect(switchingAfter([...earned, byPlan(11, reduced, 4)], [wanted], terms).state).toMatchObject({
      inspection: 'normal',
      reason: 'not accepted under reduced inspection',
    })
  })
})
