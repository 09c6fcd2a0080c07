// The repeatable random numbers: within (0, 1), even, and without memory from one to the next.
import { expect, test } from 'vitest'
import { uniformNumbers } from '../../app/statistics/uniform.ts'

test.each([0, 1, 63, -5])('seed %i gives numbers that are even in 16 × 16 cells of consecutive pairs', (seed) => {
  const next = uniformNumbers(seed)
  const cells = new Array(256).fill(0)
  for (let i = 0; i < 64_000; i++) {
    const [first, second] = [next(), next()]
    expect(first > 0 && first < 1).toBe(true)
    cells[16 * Math.floor(16 * first) + Math.floor(16 * second)]++
  }
  const chiSquare = cells.reduce((sum, seen) => sum + (seen - 250) ** 2 / 250, 0)
  expect(chiSquare).toBeGreaterThan(169.8) // qchisq(c(1e-5, 1 - 1e-5), 255) of base R 4.2
  expect(chiSquare).toBeLessThan(363)
})

test('the same seed gives the same numbers, another seed others', () => {
  const first = Array.from({ length: 5 }, uniformNumbers(7))
  expect(Array.from({ length: 5 }, uniformNumbers(7))).toEqual(first)
  expect(Array.from({ length: 5 }, uniformNumbers(8))).not.toEqual(first)
})
