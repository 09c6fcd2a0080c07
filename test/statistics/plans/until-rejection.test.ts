// Cords tested until the rejection number, against counting all orders.
import { describe, expect, test } from 'vitest'
import { averageUntilRejection } from '../../../app/statistics/plans/until-rejection.ts'

/** Every order of a small lot in which some cords do not conform, each once: the average length of testing by counting. */
function byCounting({ N, D, n, c }: { N: number; D: number; n: number; c: number }): number {
  let orders = 0
  let tested = 0
  for (let set = 0; set < 2 ** N; set++) {
    const lot = Array.from({ length: N }, (_, place) => (set >> place) & 1)
    if (lot.reduce((sum, unit) => sum + unit, 0) !== D) continue
    let found = 0
    let place = 0
    while (place < n && found <= c) found += lot[place++] ?? 0
    orders++
    tested += place
  }
  return tested / orders
}

describe('the number of cords tested when one stops at the rejection number', () => {
  // Source: (N + 1) / (D + 1) is the mean place of the first of D in N; cut at n by hand: (481 − 265 · P(none in 216)) / 6,
  // and P(none in 216) = C(264, 5) / C(480, 5).
  test('is 78 on average with 216 of 480 and 5 that do not conform', () => {
    const none = (264 * 263 * 262 * 261 * 260) / (480 * 479 * 478 * 477 * 476)
    const average = averageUntilRejection({ sampleSize: 216, acceptanceNumber: 0 }, { lotSize: 480, nonconforming: 5 })
    expect(average).toBeCloseTo((481 - 265 * none) / 6, 9)
    expect(Math.round(average)).toBe(78)
  })

  // Source: enumeration of all orders.
  test.each([
    { N: 9, D: 3, n: 5, c: 0 },
    { N: 9, D: 3, n: 5, c: 1 },
    { N: 10, D: 4, n: 10, c: 2 },
    { N: 8, D: 0, n: 4, c: 0 },
    { N: 8, D: 8, n: 4, c: 1 },
    { N: 7, D: 2, n: 7, c: 2 },
    { N: 7, D: 2, n: 0, c: 0 },
  ])('agrees with counting all orders for %o', (lot) => {
    const { N, D, n, c } = lot
    const average = averageUntilRejection({ sampleSize: n, acceptanceNumber: c }, { lotSize: N, nonconforming: D })
    expect(average).toBeCloseTo(byCounting(lot), 10)
  })

  test('a sample larger than the lot is refused by name', () => {
    const quality = { lotSize: 40, nonconforming: 2 }
    expect(() => averageUntilRejection({ sampleSize: 41, acceptanceNumber: 0 }, quality)).toThrow('sampleSize')
  })
})
