// The test of normality, the law of minima and the choice between them, against published data and base R simulations.
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { fitMinima, fractionBelowByMinima } from '../../../app/statistics/variables/minima.ts'
import { andersonDarling } from '../../../app/statistics/variables/normality.ts'
import { suitableMethod } from '../../../app/statistics/variables/suitable.ts'
import { publishedRows } from '../../published/rows.ts'

const withData = z.object({ x: z.array(z.number()) })
const values = new Map([
  // Data sets that ship with base R 4.2.
  ['ad-women.height', [58, 59, 60, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70, 71, 72]],
  [
    'ad-sleep.extra',
    [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2, 1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
  ],
  [
    'ad-trees.Volume',
    [
      10.3, 10.3, 10.2, 16.4, 18.8, 19.7, 15.6, 18.2, 22.6, 19.9, 24.2, 21, 21.4, 21.3, 19.1, 22.2, 33.8, 27.4, 25.7,
      24.9, 34.5, 31.7, 36.3, 38.3, 42.6, 55.4, 55.7, 58.3, 51.5, 51, 77,
    ],
  ],
  [
    'ad-PlantGrowth.weight',
    [
      4.17, 5.58, 5.18, 6.11, 4.5, 4.61, 5.17, 4.53, 5.33, 5.14, 4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32,
      4.69, 6.31, 5.12, 5.54, 5.5, 5.37, 5.29, 4.92, 6.15, 5.8, 5.26,
    ],
  ],
])
const tested = publishedRows('ad-', z.unknown(), z.unknown()).flatMap(({ id, source, input, recomputed }) => {
  const data = values.get(id) ?? withData.safeParse(input).data?.x
  const numbers = z.object({ A2: z.number(), A2star: z.number(), p: z.number() }).safeParse(recomputed).data
  return data && numbers ? [{ id, source, data, ...numbers }] : []
})
const dataOf = (id: string) => tested.find((row) => row.id === id)?.data ?? []
const glass = dataOf('ad-glass')

describe('the Anderson–Darling test', () => {
  test('has six published sets', () => expect(tested.map(({ id }) => id)).toHaveLength(6))

  test.each(tested)('$id: $source', ({ data, A2, A2star, p }) => {
    const { statistic, adjusted, pValue } = andersonDarling(data)
    expect(statistic).toBeCloseTo(A2, 10)
    expect(adjusted).toBeCloseTo(A2star, 10)
    expect(Math.abs(pValue / p - 1)).toBeLessThan(1e-9)
  })

  test('does not see the direction of skewness, a shift or a scale', () => {
    const { statistic } = andersonDarling(glass)
    for (const change of [(x: number) => -x, (x: number) => 1e6 + x, (x: number) => 1e-7 * x])
      expect(andersonDarling(glass.map(change)).statistic).toBeCloseTo(statistic, 7)
  })

  test('a wild value gives a small p-value, not an infinite statistic', () => {
    const { statistic, pValue } = andersonDarling([...new Array(200).fill(0).map((_, i) => i / 100), 1e6])
    expect(Number.isFinite(statistic)).toBe(true)
    expect(pValue).toBeGreaterThan(0)
    expect(pValue).toBeLessThan(1e-20)
  })

  test('refuses too few values, equal ones and what is no number', () => {
    expect(() => andersonDarling([1, 2, 3])).toThrow('values.length must be a whole number of at least 8, not 3')
    expect(() => andersonDarling(new Array(9).fill(2.5))).toThrow('values must not all be equal, not 9 times 2.5')
    expect(() => andersonDarling([1, 2, 3, 4, 5, 6, 7, Number.NaN])).toThrow(
      'values[7] must be from -1000000000 to 1000000000, not NaN',
    )
  })
})

describe('the law of minima', () => {
  // Source: own fit of 63 glass fibres (R. L. Smith & J. C. Naylor 1987) at 40 digits; the wrong sign would give
  // location 1.333, scale 0.376, log-likelihood −30.5 and 1.62 % below 0.8.
  test('fits the strengths of glass fibres with the tail on the left', () => {
    const { location, scale, logLikelihood } = fitMinima(glass)
    expect(location).toBeCloseTo(1.65358635886818, 10)
    expect(scale).toBeCloseTo(0.271875116147483, 10)
    expect(logLikelihood).toBeCloseTo(-14.9560585371484, 9)
  })

  // Source: S. Coles (2001), chapter 3, sea levels at Port Pirie: maxima 3.87, 0.195, log-likelihood 4.22 (from memory),
  // recomputed; minima are maxima turned round.
  test('fits maxima turned round', () => {
    const [row] = publishedRows('gumbel-max-portpirie', withData, z.unknown())
    const { location, scale, logLikelihood } = fitMinima((row?.input.x ?? []).map((x) => -x))
    expect(-location).toBeCloseTo(3.869443543540058, 10)
    expect(scale).toBeCloseTo(0.194889446353469, 10)
    expect(logLikelihood).toBeCloseTo(4.21768189626178, 9)
  })

  // Source: base R 4.2, 40,000 simulated samples of 63: bounds .02375 and .07761, share of worse fits .0227. Ours are
  // 2,000 samples, so a bound's confidence is uncertain by 0.5 points: 3 % of the lower and the upper bound.
  test('bounds the fraction below 0.8 as a simulation of its own does', () => {
    const { estimate, lower, upper, pValue } = fractionBelowByMinima({ values: glass, limit: 0.8, confidence: 0.95 })
    expect(estimate).toBeCloseTo(0.0423749450391238, 10)
    expect(Math.abs(lower / 0.02375 - 1)).toBeLessThan(0.05)
    expect(Math.abs(upper / 0.07761 - 1)).toBeLessThan(0.05)
    expect(Math.abs(pValue - 0.0227)).toBeLessThan(0.012)
  })

  // Source: as above for samples of 10 and a limit 3 fitted scales below the fitted location: .01246 and .2066.
  test('bounds it for ten margins', () => {
    const margins = [1.1, 2.3, 2.9, 0.4, 3.1, 2.2, 1.9, 2.6, 2.8, 1.4]
    const { location, scale } = fitMinima(margins)
    const bounds = fractionBelowByMinima({ values: margins, limit: location - 3 * scale, confidence: 0.95 })
    expect(Math.abs(bounds.lower / 0.01246 - 1)).toBeLessThan(0.08)
    expect(Math.abs(bounds.upper / 0.2066 - 1)).toBeLessThan(0.08)
    expect(bounds).toEqual(fractionBelowByMinima({ values: margins, limit: location - 3 * scale, confidence: 0.95 }))
  })

  test('refuses what is no sample', () => {
    expect(() => fitMinima([1, 2])).toThrow('values.length')
    expect(() => fractionBelowByMinima({ values: glass, limit: Number.NaN, confidence: 0.9 })).toThrow('limit must be')
    expect(() => fractionBelowByMinima({ values: glass, limit: 0, confidence: 0 })).toThrow('confidence must be')
  })
})

describe('the method that margins allow', () => {
  const at = (margins: readonly number[]) => suitableMethod({ margins, limit: 0, confidence: 0.95 })
  /** n quantiles of a law at evenly spread probabilities: as like the law as n values can be. */
  const spread = (n: number, law: (p: number) => number) => Array.from({ length: n }, (_, i) => law((i + 0.5) / n))

  test('is by variables where they look normal', () => {
    expect(at(dataOf('ad-leghorn')).method).toBe('variables')
  })

  test('is the law of minima where that fits and the normal law does not', () => {
    const chosen = at(spread(120, (p) => 3 + Math.log(-Math.log1p(-p))))
    expect(chosen).toMatchObject({ method: 'minima' })
    if (chosen.method === 'minima') {
      expect(chosen.skewness).toBeLessThan(-0.8)
      expect(chosen.normality.pValue).toBeLessThan(0.05)
      // P(below 0) = 1 − exp(−e⁻³) = 4.86 %
      expect(chosen.fraction.lower).toBeLessThan(0.0486)
      expect(chosen.fraction.upper).toBeGreaterThan(0.0486)
    }
  })

  test('is the count where neither fits, as with two kinds of cords in one lot', () => {
    const mixed = [...spread(40, (p) => 1 + p / 10), ...spread(40, (p) => 6 + p / 10)]
    expect(at(mixed)).toMatchObject({ method: 'count', reason: 'neither normal nor minima' })
    expect(at([1, 2, 3])).toEqual({ method: 'count', reason: 'too few', needed: 8 })
    expect(at(new Array(20).fill(1.5))).toEqual({ method: 'count', reason: 'all equal' })
  })

  test('refuses a confidence that is none', () => {
    expect(() => suitableMethod({ margins: [], limit: 0, confidence: 1 })).toThrow('confidence must be')
  })
})
