// Every distribution against values computed elsewhere at high precision, most of them far out; the file names their source.
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import * as beta from '../../../app/statistics/distributions/beta.ts'
import * as betaBinomial from '../../../app/statistics/distributions/beta-binomial.ts'
import * as binomial from '../../../app/statistics/distributions/binomial.ts'
import * as hypergeometric from '../../../app/statistics/distributions/hypergeometric.ts'
import * as noncentralT from '../../../app/statistics/distributions/noncentral-t.ts'
import * as normal from '../../../app/statistics/distributions/normal.ts'
import * as poisson from '../../../app/statistics/distributions/poisson.ts'
import * as student from '../../../app/statistics/distributions/student.ts'

type Fields =
  | 'lotSize'
  | 'nonconforming'
  | 'sampleSize'
  | 'fraction'
  | 'mean'
  | 'a'
  | 'b'
  | 'degreesOfFreedom'
  | 'noncentrality'
type Case = { distribution: string; quantity: string; at: number; args: Record<Fields, number>; value: number }

const file: { source: string; cases: Case[] } = JSON.parse(
  readFileSync(new URL('../../published/distributions.json', import.meta.url), 'utf8'),
)

type Quantity = (at: number, args: Case['args']) => number
const quantities: Record<string, Record<string, Quantity>> = {
  hypergeometric,
  binomial,
  poisson,
  normal,
  beta,
  student,
  betaBinomial,
  noncentralT,
}

/** Promised relative error, as the doc blocks state it. */
function promised({ distribution, quantity, args }: Case): number {
  if (distribution === 'normal') return 1e-14
  if (distribution === 'student' && quantity === 'quantile') return 1e-10
  if (distribution === 'noncentralT') return 1e-10
  if (distribution === 'beta' && quantity === 'quantile') return 1e-11
  if (distribution === 'betaBinomial' && quantity !== 'density') return 1e-11
  const size = Math.max(args.lotSize ?? 0, args.sampleSize ?? 0, args.mean ?? 0)
  return size > 1_000_000 && quantity !== 'density' ? 1e-11 : 1e-12
}

describe(`values ${file.source}`, () => {
  test.each(file.cases)('$distribution $quantity at $at of $args', (each) => {
    const evaluate = quantities[each.distribution]?.[each.quantity]
    expect(evaluate, 'the quantity exists').toBeTypeOf('function')
    const actual = evaluate?.(each.at, each.args) ?? Number.NaN
    const error = Math.abs(actual / each.value - 1)
    expect(error, `${actual} instead of ${each.value}`).toBeLessThanOrEqual(promised(each))
  })
})
