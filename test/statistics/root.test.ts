// Roots against functions whose roots are known by hand.
import { describe, expect, test } from 'vitest'
import { rootBetween } from '../../app/statistics/root.ts'

describe('the root between two points', () => {
  test.each([
    ['a line', (x: number) => x - 1 / 3, -1, 1, 1 / 3],
    ['a square root', (x: number) => x * x - 2, 0, 2, Math.SQRT2],
    ['an exponential', (x: number) => Math.exp(x) - 5, -10, 10, Math.log(5)],
    ['a falling function', (x: number) => 1 / x - 7, 1e-9, 9, 1 / 7],
    ['a step', (x: number) => (x < 0.7 ? -1 : 1), 0, 1, 0.7],
    ['infinite ends', (x: number) => Math.log(x) - Math.log1p(-x), 0, 1, 0.5],
    ['a flat triple root', (x: number) => (x - 0.3) ** 3, -1, 2, 0.3],
  ])('of %s', (_, value, low, high, root) => {
    expect(rootBetween(low, high, value)).toBeCloseTo(root, 9)
  })

  test('is near in few steps and exact at an end', () => {
    let evaluations = 0
    const root = rootBetween(-70, 40, (x) => {
      evaluations++
      return Math.log1p(Math.exp(x)) - 1e-3
    })
    expect(Math.abs(root - Math.log(Math.expm1(1e-3)))).toBeLessThan(1e-14 * 7)
    expect(evaluations).toBeLessThan(30)
    expect(rootBetween(0, 1, (x) => x)).toBe(0)
    expect(rootBetween(0, 1, (x) => x - 1)).toBe(1)
  })

  test('a function of one sign gives the end where it is nearest to 0', () => {
    expect(rootBetween(1, 3, (x) => x)).toBe(1)
    expect(rootBetween(1, 3, (x) => x - 4)).toBe(3)
  })
})
