// Exact decimals: what people type, read without binary fractions.
import { describe, expect, test } from 'vitest'
import { compareDecimals, halfway, plainDecimal, wholeCords } from '../../app/kit/decimal.ts'
import { centsFrom } from '../../app/kit/money.ts'

test.each([
  { text: '5', lotSize: 480, cords: 5 },
  { text: '1%', lotSize: 480, cords: 5 },
  { text: '0,5 %', lotSize: 480, cords: 3 },
  { text: '29%', lotSize: 100, cords: 29 }, // 0.29 × 100 is 28.999999999999996 in binary
  { text: '0.29%', lotSize: 100_000, cords: 290 },
  { text: '7%', lotSize: 100, cords: 7 }, // 0.07 × 100 is 7.000000000000001 in binary
  { text: '100%', lotSize: 480, cords: 480 },
  { text: '0.000000000001%', lotSize: 1, cords: 1 },
  { text: '0', lotSize: 480, cords: undefined },
  { text: '0%', lotSize: 480, cords: undefined },
  { text: '481', lotSize: 480, cords: undefined },
  { text: '101%', lotSize: 480, cords: undefined },
  { text: '2.5', lotSize: 480, cords: undefined },
  { text: '-1', lotSize: 480, cords: undefined },
  { text: 'NaN', lotSize: 480, cords: undefined },
])('$text of $lotSize cords is $cords whole cords', ({ text, lotSize, cords }) => {
  expect(wholeCords(text, lotSize)).toBe(cords)
})

test.each([
  { text: ' +2,40 ', plain: '2.40' },
  { text: '−0.04', plain: '-0.04' },
  { text: '-0', plain: '-0' },
  { text: '1.', plain: undefined },
  { text: '.5', plain: undefined },
  { text: '1e3', plain: undefined },
  { text: '1 000', plain: undefined },
  { text: 'Infinity', plain: undefined },
  { text: '', plain: undefined },
])('“$text” is read as $plain, every digit kept', ({ text, plain }) => {
  expect(plainDecimal(text)).toBe(plain)
})

describe('decimals compare by their digits', () => {
  test.each([
    { left: '0.30000000000000004', right: '0.3', sign: 1 },
    { left: '-0.04', right: '0', sign: -1 },
    { left: '-0.0', right: '0.000', sign: 0 },
    { left: '1.20', right: '1.2', sign: 0 },
    { left: '-2', right: '-10', sign: 1 },
    { left: '9007199254740993', right: '9007199254740992', sign: 1 },
  ])('$left against $right', ({ left, right, sign }) => {
    expect(compareDecimals(left, right)).toBe(sign)
    expect(compareDecimals(right, left)).toBe(sign === 0 ? 0 : -sign)
  })

  test.each(['', 'x', '1e3', '+1', '1,5'])('“%s” is refused', (text) => {
    expect(() => compareDecimals(text, '0')).toThrow(RangeError)
  })
})

test.each([
  ['95', '97.5'],
  ['99.9', '99.95'],
  ['0', '50'],
  ['100', '100'],
  ['99.999999999', '99.9999999995'],
  ['0.000000001', '50.0000000005'],
])('%s is halfway to 100 at %s', (said, middle) => {
  expect(halfway(said, '100')).toBe(middle)
})

test.each([
  { text: '12', cents: 1200 },
  { text: '12,5', cents: 1250 },
  { text: '0.07', cents: 7 },
  { text: '10000000', cents: 1_000_000_000 },
  { text: '10000000.01', cents: undefined },
  { text: '1.005', cents: undefined },
  { text: '-1', cents: undefined },
  { text: '', cents: undefined },
])('“$text” is $cents cents', ({ text, cents }) => {
  expect(centsFrom(text)).toBe(cents)
})
