// Special functions against exact whole numbers and values of high precision.
import { describe, expect, test } from 'vitest'
import { deviance, fourfold, productError, stirlingError, sumError } from '../../app/statistics/special.ts'

describe('what rounding dropped', () => {
  test.each([
    [123456789, 987654321.5],
    [9007199254740991, 9007199254740989],
    [3 * 2 ** -40 + 1, 7 * 2 ** -41 + 1],
  ])('of %d times and plus %d comes back', (a, b) => {
    const scale = 2 ** 41 // makes both whole, and its square their product
    const product = a * b
    const dropped = BigInt(a * scale) * BigInt(b * scale) - BigInt(product * scale ** 2)
    expect(productError(a, b, product)).toBe(Number(dropped) / scale ** 2)
    expect(BigInt((a + b) * scale) + BigInt(sumError(a, b, a + b) * scale)).toBe(BigInt(a * scale) + BigInt(b * scale))
  })
})

describe('Stirling’s error', () => {
  test('gives the factorials back, up to 140!', () => {
    let factorial = 1n
    for (let n = 1; n <= 140; n++) {
      factorial *= BigInt(n)
      const stirling = Math.sqrt(2 * Math.PI * n) * (n / Math.E) ** n * Math.exp(stirlingError(n))
      expect(stirling / Number(factorial)).toBeCloseTo(1, 12)
    }
  })

  // δ(x) = ln Γ(x + 1) − (x + ½) ln x + x − ln √(2π), computed with mpmath at 50 digits
  test.each([
    [1e-6, 5.9888309840731795],
    [0.3, 0.2360649007482156],
    [0.5, 0.15342640972002736],
    [9.75, 0.008544020505848588],
    [1234.5, 6.75037112277304e-5],
  ])('at %d is %d', (x, value) => {
    expect(Math.abs(stirlingError(x) / value - 1)).toBeLessThan(1e-12)
  })
})

describe('deviance', () => {
  // x ln(x ÷ m) − x + m, computed with mpmath at 50 digits from the numbers as they stand in binary
  test.each([
    { observed: 5_000_000, expected: 5_000_001, value: 9.999998666666866e-8 },
    { observed: 35_000, expected: 30_000, value: 395.2737939540406 },
    { observed: 3, expected: 1e-20, value: 138.45094244564706 },
    { observed: 0, expected: 2.5, value: 2.5 },
  ])('of $observed from $expected', ({ observed, expected, value }) => {
    expect(Math.abs(deviance(observed, expected, observed - expected) / value - 1)).toBeLessThan(1e-13)
  })
})

test('the fourfold table of two by two single units has probability 2 ÷ 3', () => {
  expect(fourfold({ upperLeft: 1, upperRight: 1, lowerLeft: 1, lowerRight: 1 })).toBeCloseTo(2 / 3, 15)
})
