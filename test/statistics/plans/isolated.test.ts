// Plans for isolated lots: the computed plan is minimal, and the published cells keep what the standard's abstract says.
import { describe, expect, test } from 'vitest'
import { planForIsolatedLot } from '../../../app/statistics/plans/isolated.ts'
import { acceptanceOfLot } from '../../../app/statistics/plans/measures.ts'
import { limitingQualities, limitingQualityTable } from '../../../app/statistics/plans/tables/limiting-quality.ts'

describe('a lot of 800 at limiting quality 5', () => {
  // Own scenario, acceptance computed in base R; the published plan is from memory.
  const lot = planForIsolatedLot({ lotSize: 800, limitingQuality: '5.00', consumersRisk: 0.1 })

  test('is too bad at 40, and the published plan accepts it 7.5 times in 100', () => {
    expect(lot.nonconforming).toBe(40)
    expect(lot.published).toMatchObject({ sampleSize: 80, acceptanceNumber: 1, keepsRisk: true, standing: 'recalled' })
    expect(lot.published?.acceptance).toBeCloseTo(0.0752916612588, 12)
  })

  test('the computed plan is smaller and keeps the risk; one unit less would not', () => {
    const { sampleSize, acceptanceNumber, acceptance } = lot.computed
    const chance = (size: number) =>
      acceptanceOfLot(
        { stages: [{ sampleSize: size, acceptanceNumber, rejectionNumber: acceptanceNumber + 1 }] },
        { lotSize: 800, nonconforming: 40 },
      )
    expect(acceptance).toBeLessThanOrEqual(0.1)
    expect(chance(sampleSize)).toBeCloseTo(acceptance, 14)
    expect(chance(sampleSize - 1)).toBeGreaterThan(0.1)
  })
})

// Chance to accept at the limiting quality for the largest lot of the row, from another program (base R); here it is only
// compared where the limiting quality is a whole number of units, since in between the source interpolates.
test.each([
  [1200, '0.50', 0.1012],
  [1200, '1.25', 0.0997],
  [1200, '2.00', 0.0695],
  [1200, '5.00', 0.0789],
  [1200, '12.5', 0.075],
  [3200, '0.50', 0.0988],
  [3200, '5.00', 0.1189],
  [10000, '3.15', 0.1199],
  [35000, '2.00', 0.1227],
  [500000, '31.5', 0.0503],
] as const)('the published plan for %i at %s', (lotSize, limitingQuality, acceptance) => {
  const { published } = planForIsolatedLot({ lotSize, limitingQuality, consumersRisk: 0.1 })
  expect(published?.acceptance).toBeCloseTo(acceptance, 4)
})

test('every published plan accepts at most 13 of 100 lots at the limiting quality, as the abstract of the 1985 edition says', () => {
  let compared = 0
  for (const { to } of limitingQualityTable.bands)
    for (const limitingQuality of limitingQualities) {
      const { published, computed } = planForIsolatedLot({ lotSize: to, limitingQuality, consumersRisk: 0.1 })
      expect(computed.acceptance).toBeLessThanOrEqual(0.1)
      if (!published) continue
      expect(published.acceptance, `${to} at ${limitingQuality}`).toBeLessThanOrEqual(0.13)
      compared += 1
    }
  expect(compared).toBe(97)
})

test('small lots: one unit is too many, the sample is cut to the lot, and no published plan means acceptance number 0', () => {
  expect(planForIsolatedLot({ lotSize: 16, limitingQuality: '8.00', consumersRisk: 0.1 })).toMatchObject({
    nonconforming: 2,
    published: { sampleSize: 16, acceptance: 0 },
  })
  const tiny = planForIsolatedLot({ lotSize: 1, limitingQuality: '0.50', consumersRisk: 0.1 })
  expect(tiny).toEqual({
    nonconforming: 1,
    computed: { sampleSize: 1, acceptanceNumber: 0, acceptance: 0 },
    published: undefined,
  })
})

test('bad questions are refused by name', () => {
  expect(() => planForIsolatedLot({ lotSize: 0, limitingQuality: '5.00', consumersRisk: 0.1 })).toThrow('lotSize')
  expect(() => planForIsolatedLot({ lotSize: 80, limitingQuality: '5.00', consumersRisk: 1 })).toThrow('consumersRisk')
})
