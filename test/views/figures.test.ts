// How numbers are said: never none or all unless exact, bounds outwards, margins with every digit.
import { describe, expect, test } from 'vitest'
import {
  believed,
  confidenceOf,
  counted,
  dateOf,
  day,
  decibels,
  expected,
  frequency,
  hoursAtMost,
  lasting,
  moment,
  money,
  percent,
  percentAtLeast,
  percentAtMost,
  perHundred,
  perThousandAtMost,
  riskOfHundred,
  setTimeZone,
  startOfDay,
  waited,
  whole,
} from '../../views/figures.ts'

// Source of the rules: the project's own way of saying numbers; the values are arithmetic.
// 215 of 480 cords with none allowed let 0.050421 of lots with 5 through: 265·264·263·262·261 ÷ (480·479·478·477·476), by hand.
describe('a chance beside a wish', () => {
  test.each([
    { chance: 0.050421, wished: 0.05, said: '51 of 1,000', of100: '5.1' },
    { chance: 0.051, wished: 0.05, said: '51 of 1,000', of100: '5.1' },
    { chance: 0.05, wished: 0.05, said: '5 of 100', of100: '5' },
    { chance: 0.05 * (1 + 1e-14), wished: 0.05, said: '5 of 100', of100: '5' },
    { chance: 0.0495, wished: 0.05, said: '5 of 100', of100: '5' },
    { chance: 0.0500004, wished: 0.05, said: '51 of 1,000', of100: '5.1' },
    { chance: 0.0004, wished: 0.0001, said: '4 of 10,000', of100: '0.1' },
    { chance: 0.3, wished: 0.05, said: '30 of 100', of100: '30' },
    { chance: 0.0135, wished: 0.01, said: '14 of 1,000', of100: '1.4' },
  ])('$chance where $wished is wished for is $said', ({ chance, wished, said, of100 }) => {
    expect(frequency(chance, 1 - chance, wished)).toBe(said)
    expect(perHundred(chance, 1 - chance, wished)).toBe(of100)
  })
})

// 1 tested, none found: the upper bound is 95 % exactly; 1 of 1 found: the lower one is 5 %. The numbers are those of the arithmetic.
test('an exact end is not pushed out by the last digits of the arithmetic', () => {
  expect(percentAtMost(0.9500000000000001)).toBe('95 %')
  expect(percentAtLeast(0.04999999999999999)).toBe('5 %')
  expect(percentAtMost(0.97500000000000009)).toBe('97.5 %')
  expect(percentAtMost(0.9500001)).toBe('95.1 %')
})

describe('a chance', () => {
  test.each([
    [0.5928, '59 of 100'],
    [0.05, '5 of 100'],
    [0.004, '4 of 1,000'],
    [0.0002, '2 of 10,000'],
    [0.99, '99 of 100'],
    [0.9998, '9,998 of 10,000'],
    [1e-9, 'fewer than 1 of 1,000,000'],
    [1 - 1e-9, 'more than 999,999 of 1,000,000'],
    [0, '0 of 100'],
    [1, '100 of 100'],
    [Number.MIN_VALUE, 'fewer than 1 of 1,000,000'],
  ])('of %d is said as %s', (chance, said) => {
    expect(frequency(chance)).toBe(said)
  })

  test('a hair below certain is not said as certain where the contrary is known to be possible', () => {
    expect(frequency(1, 1e-20)).toBe('more than 999,999 of 1,000,000')
    expect(perHundred(1, 1e-20)).toBe('more than 99')
  })

  test.each([
    [0.5928, '59'],
    [0.004, 'fewer than 1'],
    [0.997, 'more than 99'],
    [0, '0'],
    [1, '100'],
  ])('of %d in a column of 100 is %s', (chance, said) => {
    expect(perHundred(chance)).toBe(said)
  })

  test.each([
    [0.5928, '59.3 %'],
    [0.00024, '0.024 %'],
    [0.99999, 'more than 99.9 %'],
    [1, '100 %'],
    [0, '0 %'],
  ])('of %d as a percentage is %s', (chance, said) => {
    expect(percent(chance)).toBe(said)
  })
})

describe('a bound', () => {
  test('is rounded outwards, in decimal', () => {
    expect(percentAtMost(0.060501)).toBe('6.06 %')
    expect(percentAtMost(0.07)).toBe('7 %') // 0.07 × 100 is 7.000000000000001 in binary
    expect(percentAtLeast(0.00745999)).toBe('0.745 %')
    expect(percentAtLeast(0.0000099)).toBe('0 %')
    expect(percentAtLeast(0.00001)).toBe('0.001 %')
    expect(percentAtMost(0.99991)).toBe('100 %')
    expect(perThousandAtMost(0.0605)).toBe('61 of 1,000')
    expect(perThousandAtMost(0.007)).toBe('7 of 1,000')
    expect(perThousandAtMost(0.0000031)).toBe('4 of 1,000,000')
  })

  test('stands beside the confidence as it was asked for', () => {
    expect(confidenceOf(0.95)).toBe('95 %')
    expect(confidenceOf(0.999)).toBe('99.9 %')
    expect(riskOfHundred(0.9)).toBe('10') // 1 − 0.9 is 0.09999999999999998 in binary
  })
})

describe('an expected number', () => {
  test.each([
    [0, '0'],
    [0.001, 'less than 0.1'],
    [0.24, '0.2'],
    [2.94, '2.9'],
    [5, '5'],
    [0.9999999999999999, '1'],
    [1.0000000000000002, '1'],
    [0.999, '1.0'],
    [9.96, '10'],
    [78.01, '78'],
    [12345.6, '12,346'],
  ])('of %d is said as %s', (value, said) => {
    expect(expected(value)).toBe(said)
  })
})

describe('a margin', () => {
  test.each([
    ['2.4', '+2.4 dB'],
    ['-0.04', '\u22120.04 dB'],
    ['0', '0 dB'],
    ['-0.0', '0.0 dB'],
    ['0.000000001', '+0.000000001 dB'],
  ])('of %s keeps every digit, its sign and its unit: %s', (digits, said) => {
    expect(decibels(digits)).toBe(said)
  })
})

describe('an amount, a count, a time', () => {
  test('is said with its currency, its noun, its zone', () => {
    expect(money(123450, 'EUR')).toBe('EUR 1,234.50')
    expect(money(5, 'JPY')).toBe('JPY 0.05')
    expect(whole(1_000_000)).toBe('1,000,000')
    expect(counted(1, 'cord')).toBe('1 cord')
    expect(counted(480, 'cord')).toBe('480 cords')
    expect(day('2026-11-25T23:30:00Z')).toBe('25 November 2026')
    expect(moment('2026-11-25T14:05:00+01:00')).toBe('25 November 2026, 13:05 UTC')
  })

  // Central European Time is an hour before UTC, in summer two (IANA time zone database); Tokyo has neither summer time nor a short name in English.
  test.each([
    ['Europe/Vienna', '2026-11-25T23:30:00Z', '26 November 2026, 00:30 CET'],
    ['Europe/Vienna', '2026-06-30T22:15:00Z', '1 July 2026, 00:15 CEST'],
    ['Asia/Tokyo', '2026-11-25T14:05:00Z', '25 November 2026, 23:05 GMT+9'],
    ['America/New_York', '2027-03-14T07:30:00Z', '14 March 2027, 03:30 GMT-4'],
  ])('in %s %s is %s, and a day without a time stays that day', (zone, instant, said) => {
    setTimeZone(zone)
    try {
      expect(moment(instant)).toBe(said)
      expect(day('2027-03-31')).toBe('31 March 2027')
    } finally {
      setTimeZone('UTC')
    }
  })

  // IANA time zone database, 2026: the clock goes from 2:00 to 3:00 on 29 March in Vienna, from 2:00 back to 1:00 on 1 November in New York,
  // from 0:00 to 1:00 on 6 September in Santiago and on 8 March in Havana, and from 1:00 back to 0:00 on 1 November in Havana.
  test.each([
    ['UTC', '2026-11-27', 0, '2026-11-27T00:00:00.000Z'],
    ['Europe/Vienna', '2026-11-27', 1, '2026-11-27T23:00:00.000Z'],
    ['Europe/Vienna', '2026-03-29', 0, '2026-03-28T23:00:00.000Z'],
    ['Europe/Vienna', '2026-03-29', 1, '2026-03-29T22:00:00.000Z'],
    ['America/New_York', '2026-11-01', 0, '2026-11-01T04:00:00.000Z'],
    ['America/New_York', '2026-11-01', 1, '2026-11-02T05:00:00.000Z'],
    ['America/Santiago', '2026-09-06', 0, '2026-09-06T04:00:00.000Z'],
    ['America/Santiago', '2026-09-05', 1, '2026-09-06T04:00:00.000Z'],
    ['America/Havana', '2026-03-08', 0, '2026-03-08T05:00:00.000Z'],
    ['America/Havana', '2026-11-01', 0, '2026-11-01T04:00:00.000Z'],
  ])('in %s the day %s, %d later, begins at %s', (zone, date, later, begins) => {
    setTimeZone(zone)
    try {
      expect(startOfDay(date, later).toISOString()).toBe(begins)
      if (later > 0) return
      expect(dateOf(new Date(begins))).toBe(date)
      expect(dateOf(new Date(Date.parse(begins) - 1))).not.toBe(date)
    } finally {
      setTimeZone('UTC')
    }
  })

  test('a wait is said in days', () => {
    const now = new Date('2026-11-25T09:00:00Z')
    expect(
      ['2026-11-25T01:00:00Z', '2026-11-24T23:00:00Z', '2026-11-16T12:00:00Z'].map((at) => waited(new Date(at), now)),
    ).toEqual(['today', 'since yesterday', '9 days'])
  })
})

test.each([
  [1, undefined, 'more than 999,999 of 1,000,000'],
  [0, undefined, 'fewer than 1 of 1,000,000'],
  [1, 1e-40, 'more than 999,999 of 1,000,000'],
  [0.94, undefined, '94 of 100'],
])('a belief of %d is said as never none and never all: %s, %s', (chance, against, said) => {
  expect(believed(chance, against)).toBe(said)
})

test.each([
  [1, '1 second'],
  [89, '89 seconds'],
  [7199, '2 hours'],
  [3 * 86_400, '3 days'],
])('%i seconds last %s', (seconds, said) => {
  expect(lasting(seconds)).toBe(said)
})

// 114 ÷ 30 and 100 ÷ 30, by hand.
test.each([
  [114 / 30, '3.8 h'],
  [100 / 30, '3.4 h'],
  [1 / 30, '0.1 h'],
])('%d hours at most are said as %s', (hours, said) => {
  expect(hoursAtMost(hours)).toBe(said)
})
