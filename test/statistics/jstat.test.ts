// Measures the general library jstat, from which an engine like this one would start, on the values that the engine is checked by:
// what could stand on it, and why the rest does not. Should a later version mend a line, this test says so.
import { readFileSync } from 'node:fs'
import jstat from 'jstat'
import { describe, expect, test } from 'vitest'

const { jStat } = jstat

type Fields = 'lotSize' | 'nonconforming' | 'sampleSize' | 'fraction' | 'a' | 'b' | 'degreesOfFreedom' | 'noncentrality'
type Case = { distribution: string; quantity: string; at: number; args: Record<Fields, number>; value: number }

const { cases }: { cases: Case[] } = JSON.parse(
  readFileSync(new URL('../published/distributions.json', import.meta.url), 'utf8'),
)

const measured: { name: string; needed: number; kept: boolean; value: (x: number, args: Case['args']) => number }[] = [
  {
    name: 'hypergeometric density',
    needed: 1e-12,
    kept: true, // but in as many steps as the sample has units, where the saddle-point form takes one
    value: (x, { lotSize, nonconforming, sampleSize }) => jStat.hypgeom.pdf(x, lotSize, nonconforming, sampleSize),
  },
  {
    name: 'hypergeometric atMost',
    needed: 1e-12,
    kept: false,
    value: (x, { lotSize, nonconforming, sampleSize }) => jStat.hypgeom.cdf(x, lotSize, nonconforming, sampleSize),
  },
  {
    name: 'binomial atMost',
    needed: 1e-12,
    kept: false,
    value: (x, { sampleSize, fraction }) => jStat.binomial.cdf(x, sampleSize, fraction),
  },
  { name: 'beta atMost', needed: 1e-12, kept: false, value: (x, { a, b }) => jStat.beta.cdf(x, a, b) },
  { name: 'beta quantile', needed: 1e-11, kept: false, value: (x, { a, b }) => jStat.beta.inv(x, a, b) },
  { name: 'normal atMost', needed: 1e-12, kept: false, value: (x) => jStat.normal.cdf(x, 0, 1) },
  { name: 'normal quantile', needed: 1e-12, kept: false, value: (x) => jStat.normal.inv(x, 0, 1) },
  {
    name: 'student quantile',
    needed: 1e-10,
    kept: false,
    value: (x, { degreesOfFreedom }) => jStat.studentt.inv(x, degreesOfFreedom),
  },
  {
    name: 'noncentralT atMost',
    needed: 1e-9,
    kept: false,
    value: (x, { degreesOfFreedom, noncentrality }) => jStat.noncentralt.cdf(x, degreesOfFreedom, noncentrality),
  },
]

describe('jstat 1.9.6, at the error the engine promises', () => {
  test.each(measured)('$name: kept $kept', ({ name, needed, kept, value }) => {
    const tried = cases.filter(
      (each) => `${each.distribution} ${each.quantity}` === name && !(each.args.sampleSize > 1e6),
    )
    expect(tried.length).toBeGreaterThanOrEqual(10)
    const met = tried.filter((each) => Math.abs(value(each.at, each.args) / each.value - 1) <= needed)
    if (kept) expect(met.length).toBe(tried.length)
    else expect(met.length / tried.length).toBeLessThan(0.95)
  })
})
