// Nonconforming cords expected among the untested, against the ratio of two integrals by Simpson's rule.
import { expect, test } from 'vitest'
import { expectedBy } from '../../app/advice/expected-untested.ts'

/** Of a smooth function on [0, 1]. */
function simpson(of: (p: number) => number): number {
  const steps = 200_000
  let sum = of(0) + of(1)
  for (let step = 1; step < steps; step++) sum += (step % 2 === 0 ? 2 : 4) * of(step / steps)
  return sum / (3 * steps)
}

// Source: the definition, mean of p under p^(a−1) (1−p)^(b−1) times the binomial likelihood, integrated numerically.
test.each([
  { a: 2, b: 30, untested: 162, found: 15, recorded: 54 },
  { a: 3, b: 400, untested: 264, found: 0, recorded: 96 },
  { a: 2, b: 2, untested: 10, found: 1, recorded: 3 },
])('by Beta($a, $b) after $found of $recorded', ({ a, b, ...tested }) => {
  const weight = (p: number) => p ** (a - 1 + tested.found) * (1 - p) ** (b - 1 + tested.recorded - tested.found)
  const mean = simpson((p) => p * weight(p)) / simpson(weight)
  expect(expectedBy({ a, b }, tested)).toBeCloseTo(tested.untested * mean, 8)
})
