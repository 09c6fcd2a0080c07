// Run lengths of cumulative sums, solved elsewhere in exact fractions, and designs that have them.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { cusumPath, cusumRunLength, designCusum, referenceFraction } from '../../../app/statistics/history/cusum.ts'
import { publishedRows } from '../../published/rows.ts'
import { randomFrom } from '../../support/random.ts'

/** A number, or a fraction as text. */
const fraction = z.union([z.number(), z.string()]).transform((value) => {
  const [up = Number.NaN, down = 1] = String(value).split('/').map(Number)
  return up / down
})
const several = z.union([z.array(fraction), fraction.transform((one) => [one])])

describe('unit by unit (M. R. Reynolds and Z. G. Stoumbos 1999, in form; own cases in exact fractions)', () => {
  const value = z.union([z.array(z.number()), z.object({ value: z.number() }).transform((one) => [one.value])])
  const rows = publishedRows(
    'bernoulli-cusum',
    z.object({ p: several, m: z.number(), h: fraction, start: fraction }),
    value,
  )
  test('there are sixteen', () => expect(rows).toHaveLength(16))

  test.each(rows)('$id', ({ input: { p, m, h, start }, recomputed }) => {
    const cusum = { sampleSize: 1, steps: m, reference: 1, limit: Math.round(m * h) }
    for (const [i, wanted] of recomputed.entries())
      close(cusumRunLength(cusum, { fraction: p[i]!, start: Math.round(m * start) }), wanted, 1e-12)
  })
})

describe('lot by lot (D. M. Hawkins and D. H. Olwell 1998, in form; own cases in exact fractions)', () => {
  const rows = publishedRows(
    'binomial-cusum',
    z.object({ n: z.number(), k: fraction, h: fraction, p: several }),
    z.array(z.number()),
  )
  test('there are five', () => expect(rows).toHaveLength(5))

  test.each(rows)('$id', ({ input: { n, k, h, p }, recomputed }) => {
    const cusum = { sampleSize: n, steps: 10, reference: Math.round(10 * k), limit: Math.round(10 * h) }
    for (const [i, wanted] of recomputed.entries()) close(cusumRunLength(cusum, { fraction: p[i]! }), wanted, 1e-12)
  })
})

test.each(
  publishedRows('bernoulli-gamma', z.object({ p0: z.number(), p1: z.number() }), z.object({ gamma: z.number() })),
)('$id', ({ input: { p0, p1 }, recomputed }) => {
  close(referenceFraction({ acceptable: p0, rejectable: p1 }), recomputed.gamma, 1e-13)
})

describe('a designed sum', () => {
  test.each([
    { sampleSize: 80, acceptable: 0.01, rejectable: 0.03, runLength: 300 },
    { sampleSize: 1, acceptable: 0.01, rejectable: 0.03, runLength: 5000 },
    { sampleSize: 20, acceptable: 0.002, rejectable: 0.01, runLength: 50 },
  ])('has the smallest limit with its run length: $sampleSize units, $acceptable to $rejectable', (requirements) => {
    const { cusum, inControl, outOfControl } = designCusum(requirements)
    expect(inControl).toBeGreaterThanOrEqual(requirements.runLength)
    expect(cusumRunLength(cusum, { fraction: requirements.acceptable })).toBe(inControl)
    expect(outOfControl).toBeLessThan(inControl)
    if (cusum.limit > 1)
      expect(cusumRunLength({ ...cusum, limit: cusum.limit - 1 }, { fraction: requirements.acceptable })).toBeLessThan(
        requirements.runLength,
      )
  })

  test('agrees with a thousand runs of a simulated process, to four standard errors', () => {
    const { cusum, inControl } = designCusum({ sampleSize: 50, acceptable: 0.02, rejectable: 0.05, runLength: 60 })
    const random = randomFrom(41)
    let lots = 0
    for (let run = 0; run < 4000; run++)
      for (let signals = false, sum = 0; !signals; lots++) {
        let found = 0
        for (let unit = 0; unit < 50; unit++) if (random() < 0.02) found += 1
        sum = Math.max(0, sum + found * cusum.steps - cusum.reference)
        signals = sum >= cusum.limit
      }
    // A run length is at least about geometric: its standard error over 4,000 runs is below a 63rd of it.
    expect(Math.abs(lots / 4000 / inControl - 1)).toBeLessThan(4 / 63)
  })

  test('never signals without a find, and refuses by name', () => {
    const cusum = { sampleSize: 50, steps: 4, reference: 6, limit: 15 }
    expect(cusumRunLength(cusum, { fraction: 0 })).toBe(Number.POSITIVE_INFINITY)
    expect(cusumRunLength(cusum, { fraction: 1 })).toBe(1)
    expect(() => cusumRunLength({ ...cusum, limit: 0 }, { fraction: 0.1 })).toThrow('cusum.limit')
    expect(() => cusumRunLength(cusum, { fraction: 0.1, start: 15 })).toThrow('start')
    expect(() => designCusum({ sampleSize: 80, acceptable: 0.03, rejectable: 0.01, runLength: 300 })).toThrow(
      'rejectable',
    )
    expect(() => designCusum({ sampleSize: 80, acceptable: 0.01, rejectable: 0.03, runLength: 0 })).toThrow('runLength')
    expect(() => designCusum({ sampleSize: 1e9, acceptable: 0.01, rejectable: 0.03, runLength: 300 })).toThrow(
      'sampleSize',
    )
    expect(() => cusumPath([], { sampleSize: 80, steps: Number.NaN, reference: 3, limit: 6 })).toThrow('cusum.steps')
    expect(() => designCusum({ sampleSize: 1, acceptable: 0.001, rejectable: 0.002, runLength: 1e9 })).toThrow(
      'runLength',
    )
  })

  test('its path begins again at 0 after a signal, and a smaller lot takes off its share', () => {
    const lots = [2, 3, 3, 0, 1].map((found) => ({ sampleSize: 50, found }))
    const cusum = { sampleSize: 50, steps: 2, reference: 3, limit: 6 }
    expect(cusumPath(lots, cusum)).toEqual([
      { sum: 0.5, signals: false },
      { sum: 2, signals: false },
      { sum: 3.5, signals: true },
      { sum: 0, signals: false },
      { sum: 0, signals: false },
    ])
    expect(cusumPath([{ sampleSize: 25, found: 2 }], cusum)).toEqual([{ sum: 1.25, signals: false }])
  })
})

function close(actual: number, wanted: number, within: number): void {
  expect(Math.abs(actual / wanted - 1), `${actual} for ${wanted}`).toBeLessThanOrEqual(within)
}
