// Cartons that a draw opens: against whole-number fractions, and against every draw of a small lot.
import { expect, test } from 'vitest'
import { cartonsOpened } from '../../app/statistics/cartons-opened.ts'
import { choose, quotient } from '../support/exact.ts'

// Recomputed apart from the project by the hypergeometric sum, to six decimals.
test.each([
  [600, 50, 30, 11.176089],
  [600, 50, 20, 9.955359],
  [1000, 50, 60, 19.163893],
])('of %i cords in cartons of %i, %i picks open %d', (lotSize, unitsInCarton, picks, opened) => {
  expect(cartonsOpened({ lotSize, unitsInCarton, picks })).toBeCloseTo(opened, 6)
})

test.each([
  [601, 50, 30],
  [480, 20, 30],
  [47, 60, 5],
])('%i cords in cartons of %i, the last one smaller: %i picks open what whole numbers say', (N, s, m) => {
  const sizes = Array.from({ length: Math.ceil(N / s) }, (_, i) => Math.min(s, N - i * s))
  const missed = sizes.reduce((sum, size) => sum + choose(N - size, m), 0n)
  const opened = quotient(BigInt(sizes.length) * choose(N, m) - missed, choose(N, m))
  expect(cartonsOpened({ lotSize: N, unitsInCarton: s, picks: m })).toBeCloseTo(opened, 11)
})

test('counts cartons over every draw of three of seven cords in cartons of three', () => {
  let draws = 0
  let opened = 0
  for (let a = 0; a < 7; a++)
    for (let b = a + 1; b < 7; b++)
      for (let c = b + 1; c < 7; c++) {
        draws++
        opened += new Set([a, b, c].map((cord) => Math.floor(cord / 3))).size
      }
  expect(cartonsOpened({ lotSize: 7, unitsInCarton: 3, picks: 3 })).toBeCloseTo(opened / draws, 13)
})

test('no picks open none, all open all', () => {
  expect(cartonsOpened({ lotSize: 600, unitsInCarton: 50, picks: 0 })).toBe(0)
  expect(cartonsOpened({ lotSize: 601, unitsInCarton: 50, picks: 601 })).toBe(13)
  expect(() => cartonsOpened({ lotSize: 5, unitsInCarton: 2, picks: 6 })).toThrow('picks')
})
