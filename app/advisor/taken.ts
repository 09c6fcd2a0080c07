// How the sample was taken: fixed beforehand, stopped at a rejection number, or in two samples; read from the address.
import type { Causes } from '../kit/problems.ts'
import { because } from '../kit/refusal.ts'
import type { Stage } from '../statistics/plans/plan.ts'
import { wholeNumberIn } from './typed.ts'

export type Taken =
  | { kind: 'fixed' }
  /** one sample, of which testing stopped with the cord that brought the rejection number */
  | { kind: 'stopped'; planned: number; rejectionNumber: number }
  /** `stage`: the sample that brought the verdict, from 1; of it `left` cords were not tested after a stop */
  | { kind: 'two-samples'; stages: readonly [Stage, Stage]; stage: 1 | 2; left: number }

/** What was typed of the plan by which the sample was taken; all empty where its size was fixed and all of it tested. */
export type TakenText = { planned: string; rejection: string; first: string; accept: string; firstreject: string }

type Counts = { lotSize: number; tested: number; found: number }

/** The sums of two samples grow with the rejection number; published plans stay below 50. */
const mostRejection = 100

/** How the sample was taken, or undefined with the causes by field. */
export function takenFrom(typed: TakenText, counts: Counts, causes: Causes): Taken | undefined {
  if (Object.values(typed).every((text) => text === '')) return { kind: 'fixed' }
  const { lotSize, tested, found } = counts
  const two = typed.first !== '' || typed.accept !== '' || typed.firstreject !== ''
  const planned = wholeNumberIn(typed.planned, Math.max(1, tested), lotSize)
  if (planned === undefined) causes.planned = because('proof/planned', { tested })
  const most = Math.min(planned ?? lotSize, two ? mostRejection : lotSize)
  const rejectionNumber = wholeNumberIn(typed.rejection, 1, most)
  if (rejectionNumber === undefined) causes.rejection = because('proof/rejection', { most })
  if (planned === undefined || rejectionNumber === undefined) return undefined
  if (two) return twoSamples(typed, { ...counts, planned, rejectionNumber }, causes)
  if (tested === planned) return { kind: 'fixed' }
  if (found === rejectionNumber) return { kind: 'stopped', planned, rejectionNumber }
  causes.tested = because('proof/not-ended', { sampleSize: planned, rejectionNumber })
  return undefined
}

type Last = Counts & { planned: number; rejectionNumber: number }

function twoSamples(typed: TakenText, last: Last, causes: Causes): Taken | undefined {
  const { planned, rejectionNumber } = last
  const first = wholeNumberIn(typed.first, 1, planned - 1)
  if (first === undefined) causes.first = because('proof/first', { planned })
  const accept = wholeNumberIn(typed.accept, 0, rejectionNumber - 2)
  if (accept === undefined) causes.accept = because('proof/accept', { rejectionNumber })
  const reject = wholeNumberIn(typed.firstreject || typed.rejection, (accept ?? 0) + 2, rejectionNumber)
  if (reject === undefined) causes.firstreject = because('proof/first-reject', { rejectionNumber })
  if (first === undefined || accept === undefined || reject === undefined) return undefined
  return endOf(
    [
      { sampleSize: first, acceptanceNumber: accept, rejectionNumber: reject },
      { sampleSize: planned, acceptanceNumber: rejectionNumber - 1, rejectionNumber },
    ],
    last,
    causes,
  )
}

/** Where the counts end the plan: a sample finished with a verdict, or stopped with the cord that brought the rejection number. */
function endOf(stages: readonly [Stage, Stage], { tested, found }: Last, causes: Causes): Taken | undefined {
  const [first, both] = stages
  const stage = tested <= first.sampleSize ? 1 : 2
  const mostFound = Math.min(first.rejectionNumber - 1, first.sampleSize) + (tested - first.sampleSize)
  if (stage === 2 && (found <= first.acceptanceNumber || found > mostFound)) {
    causes.found = because('proof/second-sample', first)
    return undefined
  }
  const { sampleSize, acceptanceNumber, rejectionNumber } = stage === 1 ? first : both
  const left = sampleSize - tested
  const finished = left === 0 && (found <= acceptanceNumber || found >= rejectionNumber)
  if (finished || found === rejectionNumber) return { kind: 'two-samples', stages, stage, left }
  causes.tested = because('proof/not-ended', { sampleSize: both.sampleSize, rejectionNumber })
  return undefined
}
