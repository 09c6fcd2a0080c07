// The rule for a process that does not vary.
import { describe, expect, test } from 'vitest'
import { allOrNone, breakEvenFraction } from '../../../app/statistics/economics/all-or-none.ts'

describe('all or none', () => {
  // Own examples in the form of Deming, Out of the Crisis, ch. 15 (from memory): 1.20 a test against 60 an escape; 1.30 against 85.
  test('break-even fractions', () => {
    expect(breakEvenFraction({ test: 1.2, escape: 60 })).toBeCloseTo(0.02, 15)
    expect(breakEvenFraction({ test: 1.3, escape: 85 })).toBeCloseTo(0.0152941176471, 12)
  })

  test.each([
    { lowest: 0.005, highest: 0.005, advice: 'test none' },
    { lowest: 0.04, highest: 0.04, advice: 'test every unit' },
    { lowest: 0.005, highest: 0.04, advice: 'depends on the lot' },
  ])('$lowest to $highest: $advice', ({ lowest, highest, advice }) => {
    expect(allOrNone({ test: 1.3, escape: 85 }, { lowest, highest })).toBe(advice)
  })

  test('bad arguments are refused by name', () => {
    expect(() => breakEvenFraction({ test: 1, escape: 0 })).toThrow('escape')
    expect(() => allOrNone({ test: 1, escape: 2 }, { lowest: 0.5, highest: 0.4 })).toThrow('lowest')
  })
})
