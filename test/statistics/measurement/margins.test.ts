// The true margin behind a reading, guard bands and global risks, against worked examples and an independent quadrature.
import { describe, expect, test } from 'vitest'
import { globalRisks } from '../../../app/statistics/measurement/global-risks.ts'
import { chanceConforming, chanceNonconforming, guardBandFor } from '../../../app/statistics/measurement/guard-band.ts'

const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1)

describe('the chance that a true margin meets the limit', () => {
  // Source: the trade's table for ± 1 dB at the limit (u = 0.5 dB), Φ(margin ÷ u) in base R 4.2.
  test.each([
    [0.3, 0.5, 0.7257],
    [0.8, 0.5, 0.9452],
    [1.0, 0.5, 0.9772],
    [-0.3, 0.5, 0.2743],
  ])('a reading of %d dB with u = %d dB', (margin, uncertainty, expected) => {
    expect(chanceConforming({ margin, uncertainty })).toBeCloseTo(expected, 4)
  })

  // Source: JCGM 106:2012, breakdown voltage −5.47 V, u = 0.05 V, limit −5.40 V: Φ(1.4) (from memory, recomputed).
  test('the breakdown voltage of JCGM 106', () => {
    expect(chanceConforming({ margin: -5.4 - -5.47, uncertainty: 0.05 })).toBeCloseTo(0.9192, 4)
  })

  test('both tails keep their digits, and a wide prior is no prior', () => {
    expect(relative(chanceNonconforming({ margin: 10, uncertainty: 0.5 }), 2.753624118606233e-89)).toBeLessThan(1e-13) // pnorm(-20), mpmath
    const reading = { margin: 0.4, uncertainty: 0.5 }
    const wide = { ...reading, prior: { mean: 3, standardDeviation: 1e7 } }
    expect(chanceConforming(wide)).toBeCloseTo(chanceConforming(reading), 12)
    expect(chanceConforming(reading) + chanceNonconforming(reading)).toBeCloseTo(1, 14)
  })

  // Source: ILAC-G8:09/2019 and ISO 14253-1 (from memory): 0.83 U for 5 %, U for 2.275 %, 1.5 U for 0.135 %, with U = 2u.
  test.each([
    [0.05, 0.8224],
    [0.02275013194817921, 1],
    [0.0013498980316301, 1.5],
    [0.5, 0],
    [0.97724986805182079, -1],
  ])('the guard band for a risk of %d is %d U', (consumersRisk, ofU) => {
    expect(guardBandFor({ uncertainty: 0.5, consumersRisk })).toBeCloseTo(ofU, 4)
  })

  test.each([undefined, { mean: 2.5, standardDeviation: 2 }, { mean: -1, standardDeviation: 0.3 }])(
    'at the guard band the risk is the one wanted, prior %o',
    (prior) => {
      for (const consumersRisk of [1e-9, 0.05, 0.6]) {
        const margin = guardBandFor({ uncertainty: 0.4, consumersRisk, prior })
        expect(relative(chanceNonconforming({ margin, uncertainty: 0.4, prior }), consumersRisk)).toBeLessThan(1e-12)
      }
    },
  )

  test.each([
    [{ margin: Number.NaN, uncertainty: 0.5 }, 'margin must be from -1000000 to 1000000, not NaN'],
    [{ margin: 1, uncertainty: 0 }, 'uncertainty must be from 1e-9 to 1000000000, not 0'],
    [
      { margin: 1, uncertainty: 1, prior: { mean: 1, standardDeviation: -1 } },
      'prior.standardDeviation must be from 1e-9 to 1000000000, not -1',
    ],
    [
      { margin: 1, uncertainty: 1, prior: { mean: Infinity, standardDeviation: 1 } },
      'prior.mean must be from -1000000 to 1000000, not Infinity',
    ],
  ])('refuses %o', (reading, message) => {
    expect(() => chanceConforming(reading)).toThrow(message)
    expect(() => chanceNonconforming(reading)).toThrow(message)
  })
})

/** Limits ±1: one side's risks, twice, the other limit taken off; margins are counted from the lower limit. */
function twoSided({ σ, u, w = 0 }: { σ: number; u: number; w?: number }) {
  const risks = (mean: number, guardBand: number) =>
    globalRisks({ prior: { mean, standardDeviation: σ }, uncertainty: u, guardBand })
  return {
    consumers: 2 * (risks(1, w).consumers - risks(1, 2 - w).consumers),
    producers: 2 * (risks(1, w).producers - risks(-1, w - 2).producers),
  }
}

describe('global risks', () => {
  // Two-sided limits ±1, σ of the process and u of the measurement. Source: recomputed by integration in Python; the
  // first row is the metrology literature's ".8 % and 1.5 %" for a ratio of 4 to 1 (from memory).
  test.each([
    { name: 'limits at 2σ, ratio 4', σ: 0.5, u: 0.125, consumers: 0.0080060848, producers: 0.0148508842 },
    { name: '95 % inside, ratio 4', σ: 1 / 1.959963984540054, u: 0.125, consumers: 0.00858266, producers: 0.01553651 },
    { name: '95 % inside, ratio 2', σ: 1 / 1.959963984540054, u: 0.25, consumers: 0.01337341, producers: 0.0417753 },
    { name: '95 % inside, ratio 1', σ: 1 / 1.959963984540054, u: 0.5, consumers: 0.01801156, producers: 0.12957158 },
  ])('$name', ({ σ, u, consumers, producers }) => {
    const risks = twoSided({ σ, u })
    expect(Math.abs(risks.consumers - consumers)).toBeLessThan(6e-9)
    expect(Math.abs(risks.producers - producers)).toBeLessThan(6e-9)
  })

  // JCGM 106's example of a resistor, σ = 0.12, u = 0.04, limits ±0.2, guard bands 0, u and 2u. Source: recomputed by integration.
  test.each([
    { w: 0, consumers: 0.01894, producers: 0.03721 },
    { w: 0.2, consumers: 0.004334, producers: 0.11466 },
    { w: 0.4, consumers: 0.000469, producers: 0.24767 },
  ])('a resistor with a guard band of $w of the limit', ({ w, consumers, producers }) => {
    const risks = twoSided({ σ: 0.6, u: 0.2, w })
    expect(risks.consumers).toBeCloseTo(consumers, 5)
    expect(risks.producers).toBeCloseTo(producers, 5)
  })

  // Source: mpmath at 40 to 50 digits, Gauss–Legendre over the true margin.
  test.each([
    { mean: 60, standardDeviation: 2, uncertainty: 1, guardBand: 0, consumers: 2.32371251553117e-198 },
    { mean: 30, standardDeviation: 2, uncertainty: 0.5, guardBand: 1, consumers: 5.0150908441752e-53 },
    { mean: 1, standardDeviation: 0.5, uncertainty: 0.125, guardBand: 2, consumers: 5.186849104494949e-61 },
    { mean: 0, standardDeviation: 1, uncertainty: 1e-6, guardBand: -0.5, consumers: 0.191462461273925 },
    { mean: -3, standardDeviation: 1e-9, uncertainty: 2, guardBand: 0, consumers: 0.0668072012688581 }, // Φ(−1.5)
    { mean: -1000, standardDeviation: 1e-9, uncertainty: 1000, guardBand: 0, consumers: 0.158655253931457 }, // Φ(−1)
  ])('far out: a mean of $mean dB, guard band $guardBand dB', ({ mean, standardDeviation, ...row }) => {
    const { consumers } = globalRisks({ prior: { mean, standardDeviation }, ...row })
    expect(relative(consumers, row.consumers)).toBeLessThan(2e-13)
  })

  test('no guard band is worst for the consumer, and both risks go to 0 and to the whole at its ends', () => {
    const prior = { mean: 1, standardDeviation: 1 }
    const at = (guardBand: number) => globalRisks({ prior, uncertainty: 0.3, guardBand })
    expect(at(-50).consumers).toBeCloseTo(0.158655253931457, 13) // Φ(−1): every cord passes
    expect(at(50).producers).toBeCloseTo(0.841344746068543, 13) // Φ(1): none does
    expect(at(50).consumers).toBe(0)
    expect(at(-50).producers).toBe(0)
    expect(at(0.2).consumers).toBeLessThan(at(0).consumers)
    expect(at(0.2).producers).toBeGreaterThan(at(0).producers)
  })

  test('refuses what is no guard band', () => {
    const prior = { mean: 1, standardDeviation: 1 }
    expect(() => globalRisks({ prior, uncertainty: 0.3, guardBand: Number.NaN })).toThrow(
      'guardBand must be from -1000000 to 1000000, not NaN',
    )
    expect(() => globalRisks({ prior, uncertainty: -1, guardBand: 0 })).toThrow(
      'uncertainty must be from 1e-9 to 1000000000, not -1',
    )
  })
})
