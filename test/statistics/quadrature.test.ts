// Integrals whose value is known.
import { describe, expect, test } from 'vitest'
import { integrate } from '../../app/statistics/quadrature.ts'

describe('the integral', () => {
  test.each([
    { name: 'of 1 ÷ (1 + x²) to 1', value: integrate((x) => 1 / (1 + x * x), [0, 1]), known: Math.PI / 4 },
    { name: 'of the bell curve', value: integrate((x) => Math.exp(-x * x), [-9, 0, 9]), known: Math.sqrt(Math.PI) },
    { name: 'of √x, whose slope is infinite at 0', value: integrate(Math.sqrt, [0, 1]), known: 2 / 3 },
    {
      name: 'of a narrow peak that a cut announces',
      value: integrate((x) => 1 / (1 + ((x - 0.3) * 1e6) ** 2), [0, 0.3, 1]),
      known: (Math.atan(7e5) + Math.atan(3e5)) / 1e6,
    },
    { name: 'over nothing', value: integrate(Math.exp, [1, 1]), known: 0 },
  ])('$name', ({ value, known }) => {
    expect(Math.abs(value - known)).toBeLessThanOrEqual(1e-13 * known)
  })
})
