// Beta-binomial fits against published data, values at 40 digits, and histories that have no finite maximum.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { density } from '../../../app/statistics/distributions/beta-binomial.ts'
import { betaBinomialFit } from '../../../app/statistics/history/fit.ts'
import type { LotResult } from '../../../app/statistics/history/lots.ts'
import { momentFit } from '../../../app/statistics/history/moments.ts'
import { publishedRows } from '../../published/rows.ts'

const groups = z.object({ 'lots [sampleSize, found, times]': z.array(z.tuple([z.number(), z.number(), z.number()])) })
const fits = publishedRows('bbfit-', groups, z.object({ a: z.number(), b: z.number(), logLikelihood: z.number() }))
const histories = new Map(fits.map(({ id, input }) => [id, lotsOf(input['lots [sampleSize, found, times]'])]))

describe('the likelihood of published data, recomputed by Newton’s method at 40 digits', () => {
  test('there are twelve', () => expect(fits).toHaveLength(12))

  test.each(fits)('$id: $source', ({ id, recomputed }) => {
    const fit = betaBinomialFit(histories.get(id) ?? [])
    if (fit.kind !== 'fitted') throw new Error(fit.reason)
    expect(Math.abs(fit.a / recomputed.a - 1)).toBeLessThan(1e-9)
    expect(Math.abs(fit.b / recomputed.b - 1)).toBeLessThan(1e-9)
    expect(Math.abs(fit.logLikelihood / recomputed.logLikelihood - 1)).toBeLessThan(1e-11)
  })

  test('the often copied 34.09558, 31.5715 for the families of twelve is not the maximum', () => {
    const lots = histories.get('bbfit-saxony12') ?? []
    const fit = betaBinomialFit(lots)
    if (fit.kind !== 'fitted') throw new Error(fit.reason)
    const copied = lots.reduce(
      (sum, { found }) => sum + Math.log(density(found, { sampleSize: 12, a: 34.09558, b: 31.5715 })),
      0,
    )
    expect(copied).toBeCloseTo(-12492.871360075, 6)
    expect(fit.logLikelihood).toBeGreaterThan(copied)
  })

  test('the frequencies fitted there agree with the printed ones', () => {
    // Encyclopedia article after Lindsey; two of the printed digits are truncated, not rounded.
    const fit = betaBinomialFit(histories.get('bbfit-saxony12') ?? [])
    if (fit.kind !== 'fitted') throw new Error(fit.reason)
    const printed = [2.3, 22.6, 104.8, 310.9, 655.7, 1036.2, 1257.9, 1182.1, 853.6, 461.9, 177.9, 43.8, 5.2]
    for (const [found, frequency] of printed.entries())
      expect(Math.abs(6115 * density(found, { sampleSize: 12, ...fit }) - frequency)).toBeLessThan(0.06)
  })
})

// Maxima found with an arbitrary-precision library at 40 digits from the digamma equations: lots of up to ten million.
test.each([
  ['100/1e6 9000/1e6 12000/1e6', 0.5412886720355992, 76.77791487062693, -29.082614251442397],
  ['100/1e7 9000/1e7 12000/1e6', 0.3108640556177755, 72.17817628297728, -30.35111591118257],
  ['100000/1e7 101000/1e7 100500/1e7 9900/1e6', 120932.269240905, 11921715.0134657, -28.845552624571212],
  ['20/2000 34/2000 9/1500 21/2000', 13.480314362636529, 1210.2330231080675, -13.432582622378733],
  ['1/1 0/2 1/3 0/1 0/50', 0.18752569101961555, 0.693106810847281, -5.031079985664608],
  ['99999/1e5 99000/1e5 50000/5e4', 38.59950245620704, 0.12800253450762838, -13.386019596145347],
  ['1/2 0/50 5/5', 0.13347945169189207, 0.15814038592672938, -4.426898449334138],
])('%s', (history, a, b, logLikelihood) => {
  const fit = betaBinomialFit(written(history))
  if (fit.kind !== 'fitted') throw new Error(fit.reason)
  expect(Math.abs(fit.a / a - 1)).toBeLessThan(1e-8)
  expect(Math.abs(fit.b / b - 1)).toBeLessThan(1e-8)
  expect(Math.abs(fit.logLikelihood / logLikelihood - 1)).toBeLessThan(1e-11)
})

describe('a history without a finite maximum says so', () => {
  test.each([
    { reason: 'none found', history: '0/48 0/80' },
    { reason: 'all found', history: '48/48 8/8' },
    { reason: 'one lot', history: '3/48 0/0' },
    { reason: 'one unit in each lot', history: '1/1 0/1 0/1' },
    { reason: 'each lot all alike', history: '40/40 0/30 1/1' },
    { reason: 'no more spread than binomial', history: '10/100 5/50' },
    { reason: 'no more spread than binomial', history: '2/48 3/48 2/48' },
  ])('$reason: $history', ({ reason, history }) => {
    const lots = written(history)
    const tested = lots.reduce((sum, lot) => sum + lot.sampleSize, 0)
    const found = lots.reduce((sum, lot) => sum + lot.found, 0)
    expect(betaBinomialFit(lots)).toEqual({ kind: 'no finite maximum', reason, fraction: found / tested })
  })

  test('and there no spread at all is likelier than any', () => {
    // The log-likelihood over a grid of spreads at its best mean, against the binomial one.
    const lots = written('2/48 3/48 2/48')
    const at = (mean: number, spread: number) =>
      lots.reduce(
        (sum, { sampleSize, found }) =>
          sum + Math.log(density(found, { sampleSize, a: mean / spread, b: (1 - mean) / spread })),
        0,
      )
    const binomial = at(7 / 144, 1e-9)
    for (const spread of [1e-4, 1e-3, 0.01, 0.1, 1, 10])
      for (const mean of [0.02, 0.04, 7 / 144, 0.06, 0.1]) expect(at(mean, spread)).toBeLessThan(binomial)
  })

  test('bad histories are refused by name', () => {
    expect(() => betaBinomialFit([])).toThrow('lots must hold at least one tested unit')
    expect(() => betaBinomialFit([{ sampleSize: 3, found: 4 }])).toThrow('lots[0].found')
    expect(() => momentFit([{ sampleSize: 2.5, found: 0 }])).toThrow('lots[0].sampleSize')
  })
})

describe('the moment fit', () => {
  test('of lots of one size is the classical one, as printed', () => {
    const [row] = publishedRows('bbmoment-saxony12', z.unknown(), z.object({ a: z.number(), b: z.number() }))
    const fit = momentFit(histories.get('bbfit-saxony12') ?? [])
    if (fit.kind !== 'fitted' || !row) throw new Error('no fit')
    expect(fit.a).toBeCloseTo(row.recomputed.a, 9)
    expect(fit.b).toBeCloseTo(row.recomputed.b, 9)
    expect([fit.a.toFixed(4), fit.b.toFixed(4)]).toEqual(['34.1350', '31.6085'])
  })

  test.each(publishedRows('icc-', z.unknown(), z.object({ fleiss_cuzick: z.number() })))(
    '$id',
    ({ id, recomputed }) => {
      const fit = momentFit(histories.get(id.replace('icc-', 'bbfit-')) ?? [])
      if (fit.kind !== 'fitted') throw new Error('no fit')
      expect(Math.abs(fit.correlation / recomputed.fleiss_cuzick - 1)).toBeLessThan(1e-11)
      expect(1 / (fit.a + fit.b + 1)).toBeCloseTo(fit.correlation, 12)
    },
  )

  test('says where there is none', () => {
    for (const history of ['2/48 3/48', '0/48 0/20', '0/1 1/1'])
      expect(momentFit(written(history)).kind).toBe('no finite fit')
  })
})

/** Found/tested of each lot. */
function written(history: string): LotResult[] {
  return history.split(' ').map((lot) => {
    const [found = 0, sampleSize = 0] = lot.split('/').map(Number)
    return { sampleSize, found }
  })
}

function lotsOf(rows: [number, number, number][]): LotResult[] {
  return rows.flatMap(([sampleSize, found, times]) => Array.from({ length: times }, () => ({ sampleSize, found })))
}
