// The solver against chains solved by hand.
import { describe, expect, test } from 'vitest'
import { expectedSteps, longRunShares } from '../../app/statistics/chain.ts'

describe('the solver of chains', () => {
  test('the gambler’s ruin: fair play from i of 10 ends after i(10 − i) steps', () => {
    // Feller, An Introduction to Probability Theory, XIV.3 (from memory; a standard result).
    const size = 9
    const step = new Float64Array(size * size)
    for (let i = 0; i < size; i++) {
      if (i > 0) step[i * size + i - 1] = 0.5
      if (i < size - 1) step[i * size + i + 1] = 0.5
    }
    const end = Float64Array.from({ length: size }, (_, i) => (i === 0 || i === size - 1 ? 0.5 : 0))
    const steps = expectedSteps({ size, step, end, down: 1 })
    for (let i = 0; i < size; i++) expect(steps[i]).toBeCloseTo((i + 1) * (9 - i), 11)
  })

  test('a rare end keeps its digits, and one that never comes is infinite', () => {
    const rare = expectedSteps({ size: 1, step: Float64Array.of(1), end: Float64Array.of(1e-200), down: 0 })
    expect(rare[0]! / 1e200).toBeCloseTo(1, 14)
    expect([
      ...expectedSteps({ size: 2, step: Float64Array.of(0, 1, 0, 1), end: Float64Array.of(0, 0), down: 1 }),
    ]).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY])
  })

  test('the long run of two states, and of one that is left for good', () => {
    const [rain, dry] = longRunShares({ size: 2, step: Float64Array.of(0.7, 0.3, 0.1, 0.9) })
    expect(rain).toBeCloseTo(0.25, 14)
    expect(dry).toBeCloseTo(0.75, 14)
    expect([...longRunShares({ size: 3, step: Float64Array.of(0.5, 0.25, 0.25, 0, 0, 1, 0, 1, 0) })]).toEqual([
      0, 0.5, 0.5,
    ])
  })
})
