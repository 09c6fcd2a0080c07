// The distributions against the general reference library @stdlib, over random arguments; each tolerance is that library's own
// accuracy, as it showed against base R 4.2, not ours. The seed is fixed, so that a failure comes again.
import betaCdf from '@stdlib/stats-base-dists-beta-cdf'
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile'
import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf'
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile'
import poissonCdf from '@stdlib/stats-base-dists-poisson-cdf'
import tQuantile from '@stdlib/stats-base-dists-t-quantile'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import * as beta from '../../../app/statistics/distributions/beta.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as normal from '../../../app/statistics/distributions/normal.ts'
import * as poisson from '../../../app/statistics/distributions/poisson.ts'
import * as student from '../../../app/statistics/distributions/student.ts'

const runs = { seed: 20261125, numRuns: 2000 }
const share = fc.double({ min: 0.001, max: 0.999, noNaN: true })
const size = fc.double({ min: -1, max: 4, noNaN: true }).map((digits) => 10 ** digits)

function agree(actual: number, other: number, within: number, what: string): void {
  expect(Math.abs(actual - other) <= within * Math.abs(other), `${what}: ${actual}, @stdlib ${other}`).toBe(true)
}

test('incomplete beta', () => {
  fc.assert(
    fc.property(share, size, size, (x, a, b) => {
      const other = betaCdf(x, a, b)
      fc.pre(other > 1e-280)
      agree(beta.atMost(x, { a, b }), other, 5e-12, `x ${x}, a ${a}, b ${b}`)
    }),
    runs,
  )
})

test('beta quantile', () => {
  fc.assert(
    fc.property(share, size, size, (probability, a, b) => {
      const other = betaQuantile(probability, a, b)
      fc.pre(other > 1e-280)
      agree(beta.quantile(probability, { a, b }), other, 1e-12, `probability ${probability}, a ${a}, b ${b}`)
    }),
    runs,
  )
})

test('binomial', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 5000 }), share, share, (sampleSize, fraction, part) => {
      const found = Math.floor(part * sampleSize)
      const other = binomialCdf(found, sampleSize, fraction)
      fc.pre(other > 1e-280)
      agree(binomial.atMost(found, { sampleSize, fraction }), other, 5e-12, `${found} of ${sampleSize}, ${fraction}`)
    }),
    runs,
  )
})

test('Poisson', () => {
  fc.assert(
    fc.property(size, fc.double({ min: 0, max: 2, noNaN: true }), (mean, part) => {
      const found = Math.floor(part * mean)
      const other = poissonCdf(found, mean)
      fc.pre(other > 1e-280)
      agree(poisson.atMost(found, { mean }), other, 1e-11, `${found}, mean ${mean}`)
    }),
    runs,
  )
})

// At 1e-12 @stdlib says −7.034487, where qnorm of base R says −7.0344838 as the engine does: only its middle is a reference.
test('normal quantile', () => {
  fc.assert(
    fc.property(share, (probability) => {
      fc.pre(Math.abs(probability - 0.5) > 0.01)
      agree(normal.quantile(probability), normalQuantile(probability, 0, 1), 1e-12, `probability ${probability}`)
    }),
    runs,
  )
})

test('Student quantile', () => {
  fc.assert(
    fc.property(share, size, (probability, freedom) => {
      const degreesOfFreedom = freedom + 1
      fc.pre(Math.abs(probability - 0.5) > 0.01)
      const other = tQuantile(probability, degreesOfFreedom)
      agree(student.quantile(probability, { degreesOfFreedom }), other, 1e-11, `${probability}, ν ${degreesOfFreedom}`)
    }),
    runs,
  )
})
