// Likeness within groups: published correlation estimates, the design effect, and what a convenient sample misses.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { designEffect, effectiveSampleSize } from '../../../app/statistics/clustering/design-effect.ts'
import { intraclassCorrelation } from '../../../app/statistics/clustering/intraclass.ts'
import { nothingSeen, nothingSeenByCorrelation } from '../../../app/statistics/clustering/nothing-seen.ts'
import { publishedRows } from '../../published/rows.ts'

const data = publishedRows('bbfit-', z.unknown(), z.object({ 'rho=1/(a+b+1)': z.number() }))
const groupsOf = (id: string) => {
  const row = z.object({ 'lots [sampleSize, found, times]': z.array(z.tuple([z.number(), z.number(), z.number()])) })
  const { 'lots [sampleSize, found, times]': lots } = row.parse(data.find((each) => each.id === id)?.input)
  return lots.flatMap(([sampleSize, found, times]) => new Array(times).fill({ sampleSize, found }))
}
const correlations = publishedRows(
  'icc-',
  z.object({ see: z.string() }),
  z.object({
    p: z.number(),
    anova: z.number(),
    fleiss_cuzick: z.number(),
    kleinman_n: z.number(),
    tarone_Z: z.number(),
  }),
)
describe('the correlation within groups', () => {
  test('has published rows to be checked against', () => expect(correlations.length).toBeGreaterThan(4))

  test.each(correlations)('$id: $source', ({ input, recomputed }) => {
    const estimate = intraclassCorrelation(groupsOf(input.see))
    if (estimate.kind !== 'estimated') throw new Error(estimate.reason)
    expect(estimate.fraction).toBeCloseTo(recomputed.p, 11)
    expect(estimate.analysisOfVariance).toBeCloseTo(recomputed.anova, 11)
    expect(estimate.withinGroups).toBeCloseTo(recomputed.fleiss_cuzick, 11)
    expect(estimate.moments).toBeCloseTo(recomputed.kleinman_n, 11)
    expect(estimate.z).toBeCloseTo(recomputed.tarone_Z, 9)
    const likelihood = data.find((each) => each.id === input.see)?.recomputed['rho=1/(a+b+1)'] ?? Number.NaN
    expect(estimate.likelihood).toBeCloseTo(likelihood, 9)
  })

  test('groups that are each all of one kind are wholly alike', () => {
    const groups = [0, 8, 0, 8, 0].map((found) => ({ sampleSize: 8, found }))
    expect(intraclassCorrelation(groups)).toMatchObject({ likelihood: 1, analysisOfVariance: 1, withinGroups: 1 })
  })

  test.each([
    ['none found', [0, 0, 0], 10],
    ['all found', [10, 10], 10],
    ['one group', [3], 10],
    ['one unit in each group', [0, 1, 0], 1],
  ])('%s tells nothing', (reason, found, sampleSize) => {
    const groups = found.map((each) => ({ sampleSize, found: each }))
    expect(intraclassCorrelation([...groups, { sampleSize: 0, found: 0 }])).toMatchObject({
      kind: 'no information',
      reason,
    })
  })

  test('no more spread than chance is a likelihood estimate of 0, and no test result', () => {
    const groups = [3, 3, 3, 3].map((found) => ({ sampleSize: 10, found }))
    expect(intraclassCorrelation(groups)).toMatchObject({ kind: 'estimated', likelihood: 0 })
    expect(() => intraclassCorrelation([{ sampleSize: 3, found: 4 }])).toThrow('lots[0].found')
  })
})

describe('the design effect', () => {
  // Source: 1 + 9 × 0.3 by hand; 100 cords in ten-packs are worth 27.
  test('of ten-packs with a correlation of 0.3 is 3.7', () => {
    const sample = { unitsOfPacks: new Array<number>(10).fill(10), correlation: 0.3 }
    expect(designEffect(sample)).toBeCloseTo(3.7, 14)
    expect(effectiveSampleSize(sample)).toBeCloseTo(100 / 3.7, 12)
  })

  test('goes from every unit to every pack, and weighs packs that differ', () => {
    expect(effectiveSampleSize({ unitsOfPacks: [8, 8, 8], correlation: 0 })).toBe(24)
    expect(effectiveSampleSize({ unitsOfPacks: [8, 8, 8], correlation: 1 })).toBe(3)
    expect(designEffect({ unitsOfPacks: [1, 3], correlation: 1 })).toBe(2.5) // (1 + 9) ÷ 4
    expect(() => designEffect({ unitsOfPacks: [], correlation: 0 })).toThrow('unitsOfPacks.length must be')
    expect(() => designEffect({ unitsOfPacks: [0], correlation: 0 })).toThrow('unitsOfPacks[0] must be')
    expect(() => designEffect({ unitsOfPacks: [1], correlation: 2 })).toThrow('correlation must be from 0 to 1, not 2')
  })
})

describe('the chance to see nothing', () => {
  const cartons = Array.from({ length: 20 }, (_, carton) => ({ cords: 50, nonconforming: carton < 2 ? 25 : 0 }))

  // Source: the trade's scenario, 1,000 cords in 20 cartons of which two are half nonconforming, base R phyper.
  test.each([
    { opened: 2, each: 40, convenient: 0.805, noneOpened: 0.8053 },
    { opened: 5, each: 16, convenient: 0.553, noneOpened: 0.5526 },
    { opened: 20, each: 4, convenient: 0.003, noneOpened: 0 },
  ])('in $opened cartons, $each of each', ({ opened, each, convenient, noneOpened }) => {
    const chances = nothingSeen({ cartons, opened, each })
    expect(chances.random).toBeCloseTo(0.0139, 4)
    expect(chances.stratified).toBeCloseTo(0.003, 4)
    expect(chances.convenient).toBeCloseTo(convenient, 3)
    expect(chances.noneOpened).toBeCloseTo(noneOpened, 4)
  })

  // Source: every choice of cartons and of cords in them, listed.
  test('agrees with listing every choice, for cartons that differ', () => {
    const lot = [
      { cords: 3, nonconforming: 1 },
      { cords: 4, nonconforming: 0 },
      { cords: 5, nonconforming: 3 },
      { cords: 3, nonconforming: 2 },
    ]
    const clean = ({ cords, nonconforming }: { cords: number; nonconforming: number }, units: number) => {
      let chance = 1
      for (let i = 0; i < units; i++) chance *= Math.max(0, cords - nonconforming - i) / (cords - i)
      return chance
    }
    const pairs = [0, 1, 2, 3].flatMap((i) => [0, 1, 2, 3].filter((j) => j > i).map((j) => [lot[i]!, lot[j]!] as const))
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
    const chances = nothingSeen({ cartons: lot, opened: 2, each: 3 })
    expect(chances.convenient).toBeCloseTo(mean(pairs.map(([a, b]) => clean(a, 3) * clean(b, 3))), 14)
    // Six cords dealt to four cartons: one each, two of them chosen at random get a second.
    const dealt = pairs.map((two) => lot.reduce((all, carton) => all * clean(carton, two.includes(carton) ? 2 : 1), 1))
    expect(chances.stratified).toBeCloseTo(mean(dealt), 14)
    expect(chances.noneOpened).toBe(0)
  })

  // Source: independent cords (1 − p)ⁿ; alike ones (1 − p) a carton; between them the beta-binomial by hand for two cords.
  test('by correlation', () => {
    const supplier = { fraction: 0.05, opened: 3 }
    expect(nothingSeenByCorrelation({ ...supplier, correlation: 0, each: 7 })).toBeCloseTo(0.95 ** 21, 14)
    expect(nothingSeenByCorrelation({ ...supplier, correlation: 1, each: 7 })).toBeCloseTo(0.95 ** 3, 14)
    const two = 0.95 - 0.95 * 0.05 * (1 - 0.4) // P(both conform) = q² + ρpq = q − pq(1 − ρ)
    expect(nothingSeenByCorrelation({ ...supplier, correlation: 0.4, each: 2 })).toBeCloseTo(two ** 3, 14)
    expect(nothingSeenByCorrelation({ ...supplier, correlation: 0.4, each: 0 })).toBe(1)
  })

  test('a carton that holds fewer, or more nonconforming cords than cords, is refused', () => {
    expect(() => nothingSeen({ cartons, opened: 21, each: 1 })).toThrow(
      'opened must be a whole number from 1 to 20, not 21',
    )
    expect(() => nothingSeen({ cartons, opened: 1, each: 51 })).toThrow(
      'each must be a whole number from 0 to 50, not 51',
    )
    const wrong = [{ cords: 2, nonconforming: 3 }]
    expect(() => nothingSeen({ cartons: wrong, opened: 1, each: 1 })).toThrow('cartons[0].nonconforming must be')
  })
})
