// Cords from their terminations and back.
import { describe, expect, test } from 'vitest'
import { fractionOfCords, fractionOfTerminations } from '../../../app/statistics/clustering/terminations.ts'

describe('the fraction of cords from two terminations and a cable', () => {
  // Source: 1 − (1 − t)²(1 − c) in exact decimals by hand.
  test.each([
    [0.02, 0, 0.0396],
    [0.03, 0.001, 0.0600409],
    [0.03, 0.005, 0.0638045],
    [0, 0.4, 0.4],
    [1, 0, 1],
    [0.5, 1, 1],
    [1e-12, 0, 1.999999999999e-12],
    [1e-12, 1e-15, 2.000999999999e-12],
  ])('termination %d, cable %d: %d', (termination, cable, cords) => {
    expect(Math.abs(fractionOfCords({ termination, cable }) - cords)).toBeLessThanOrEqual(1e-14 * cords)
  })

  test.each([0, 1e-15, 0.0396, 0.5, 1])('the fraction of terminations behind %d of cords leads back to it', (cords) => {
    const again = fractionOfCords({ termination: fractionOfTerminations(cords), cable: 0 })
    expect(Math.abs(again - cords)).toBeLessThanOrEqual(1e-14 * cords)
  })

  test('what is no fraction is refused by name', () => {
    expect(() => fractionOfCords({ termination: -0.1, cable: 0 })).toThrow('termination must be from 0 to 1, not -0.1')
    expect(() => fractionOfCords({ termination: 0, cable: Number.NaN })).toThrow('cable must be from 0 to 1, not NaN')
    expect(() => fractionOfTerminations(2)).toThrow('cords must be from 0 to 1, not 2')
  })
})
