// The intervals that the page of a proof offers beside the exact one, against published values and an integral of its own.
import { describe, expect, test } from 'vitest'
import { prove } from '../../app/advisor/prove.ts'

function intervalsOf(tested: number, found: number) {
  const { interval, others } = prove({
    lotSize: 1000,
    tested,
    found,
    confidence: 0.95,
    claim: 10,
    taken: { kind: 'fixed' },
  })
  const exact = { method: 'exact', ...interval }
  return (method: string) => [exact, ...others].find((each) => each.method === method) ?? { lower: NaN, upper: NaN }
}

describe('intervals of a fraction', () => {
  // Source: R. G. Newcombe (1998), Statist. Med. 17, 857–872, table I, methods 3, 5 and 6 (from memory), four decimals at 95 %.
  test.each([
    [81, 263, [0.2527, 0.3676], [0.2544, 0.3658], [0.2553, 0.3662]],
    [15, 148, [0.0578, 0.1617], [0.0601, 0.1581], [0.0624, 0.1605]],
    [0, 20, [0, 0.1684], [0, 0.1391], [0, 0.1611]],
    [1, 29, [0.0009, 0.1776], [0.0017, 0.1585], [0.0061, 0.1718]],
  ])('%i of %i as published: exact %o, mid-P %o, Wilson %o', (found, tested, exact, midP, wilson) => {
    const intervals = intervalsOf(tested, found)
    for (const [name, [lower, upper]] of Object.entries({ exact, 'mid-p': midP, wilson })) {
      const { lower: low, upper: high } = intervals(name)
      expect([low.toFixed(4), high.toFixed(4)], name).toEqual([lower?.toFixed(4), upper?.toFixed(4)])
    }
  })

  // Source: the posterior under the prior 1 / √(p(1 − p)), summed here over p = sin² t, where it is sin^2d t · cos^2(n − d) t.
  test.each([
    [80, 2],
    [20, 4],
  ])('leave 2.5 % of the Jeffreys posterior on each side: %i tested, %i found', (tested, found) => {
    const { lower, upper } = intervalsOf(tested, found)('jeffreys')
    const mass = (from: number, to: number) => {
      const [a, b] = [Math.asin(Math.sqrt(from)), Math.asin(Math.sqrt(to))]
      const steps = 20_000
      let sum = 0
      for (let i = 0; i < steps; i++) {
        const t = a + ((i + 0.5) * (b - a)) / steps
        sum += Math.sin(t) ** (2 * found) * Math.cos(t) ** (2 * (tested - found))
      }
      return (sum * (b - a)) / steps
    }
    expect(mass(0, lower) / mass(0, 1)).toBeCloseTo(0.025, 6)
    expect(mass(upper, 1) / mass(0, 1)).toBeCloseTo(0.025, 6)
  })
})
