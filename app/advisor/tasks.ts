// The arithmetic of the two open pages, as tasks.
import type { Task } from '../kit/task.ts'
import { type Comparison, compareAlternatives } from './compare.ts'
import { type Curves, curvesOf } from './curve.ts'
import { moreWays } from './more-ways.ts'
import type { ProofQuestion } from './proof-question.ts'
import { type Proof, prove } from './prove.ts'
import type { Question } from './question.ts'

export type Compared = { comparison: Comparison; curves: Curves }

/** Two samples take a search of up to a fifth of a second. */
export const compareTask: Task<Question, Compared> = {
  name: 'compare',
  work(question) {
    const comparison = compareAlternatives(question, moreWays(question))
    return { comparison, curves: curvesOf(question, comparison) }
  },
}

export const proveTask: Task<ProofQuestion, Proof> = { name: 'prove', work: prove }

/** The sums of two samples look at every count that leads to the second: more of them than this may take longer. */
const mostUndecided = 10

/** In larger lots sums may have tens of thousands of terms. */
const largestHere = 10_000

/** Whether what a sample proved may take so long that the others would wait for it. */
export function provingTakesLong({ lotSize, taken }: ProofQuestion): boolean {
  return lotSize > largestHere || (taken.kind === 'two-samples' && taken.stages[0].rejectionNumber > mostUndecided)
}
