// The sentences of the page "What did my sample prove?".
import type { ProofQuestion } from '../../app/advisor/proof-question.ts'
import type { Needed, Proof } from '../../app/advisor/prove.ts'
import { confidenceOf, counted, riskOfHundred, whole } from '../figures.ts'

/** The answer in one line: what may still hide among the cords nobody tested. */
export function firstLine({ lotSize, tested, found, confidence }: ProofQuestion, { untested }: Proof): string {
  const rest = lotSize - tested
  const sure = `(${confidenceOf(confidence)} confidence, exact)`
  if (lotSize === 1 && tested === 1)
    return `The one cord of the lot is tested and ${found === 0 ? 'conforms' : 'does not conform'}. There is no uncertainty left.`
  if (rest === 0)
    return `All ${counted(lotSize, 'cord')} of the lot tested: ${found === 0 ? 'all conform' : `${whole(found)} ${found === 1 ? 'does' : 'do'} not conform`}. There is no uncertainty left.`
  if (rest === 1)
    return `The one untested cord ${untested.atMost === 0 ? 'conforms' : 'could be nonconforming'} ${sure}.`
  if (untested.atMost === 0) return `All ${counted(rest, 'untested cord')} conform ${sure}.`
  if (untested.atMost === rest)
    return `Every one of the ${counted(rest, 'untested cord')} could be nonconforming ${sure}.`
  return `Up to ${whole(untested.atMost)} of the ${counted(rest, 'untested cord')} could be nonconforming ${sure}.`
}

/** What the reader would like to say, whether the sample says it, and what it would have taken. */
export function claimLine({ lotSize, tested, found, claim }: ProofQuestion, needed: Needed): string {
  const say = claim === 1 ? 'that all conform' : `fewer than ${whole(claim)}`
  if (needed.kind === 'refuted') return `You cannot claim ${say}: your sample itself holds ${whole(found)}.`
  const withFound = needed.withFound === undefined ? '' : `, or ${whole(needed.withFound)} with ${whole(found)}`
  const taken = `${whole(needed.clean)} tested with none nonconforming${withFound}`
  return needed.kind === 'shown'
    ? `You can claim ${say} of the ${whole(lotSize)}. It takes ${taken}.`
    : `To claim ${say} you would need ${taken}. Your ${whole(tested)} do not support it.`
}

/** The picture of the lot in words. */
export function inWords({ lotSize, tested, found }: ProofQuestion, { untested }: Proof): string {
  return `${counted(lotSize, 'cord')}: ${whole(tested - found)} tested and conforming, ${whole(found)} tested and not conforming, ${whole(lotSize - tested)} not tested, of which up to ${whole(untested.atMost)} could be nonconforming.`
}

/** By what method the counts of the lot are bounded, and what they suppose. */
export function lotMethod({ confidence, taken }: ProofQuestion): string {
  switch (taken.kind) {
    case 'fixed':
      return `Method: exact one-sided bounds (hypergeometric), each with a risk of ${riskOfHundred(confidence)} in 100. They assume only a random sample.`
    case 'stopped':
      return `Method: exact one-sided bounds (hypergeometric) of the ${counted(taken.planned, 'cord')} drawn. As cords may be tested in the order in which they lie, those left untested by the stop count as nonconforming in the upper bound and as conforming in the lower one.`
    case 'two-samples': {
      const left =
        taken.left === 0
          ? ''
          : ' Cords that the stop left out count as nonconforming in the upper bound, as far as the plan could have come to it, and as conforming in the lower one.'
      return `Method: exact one-sided bounds (hypergeometric) that belong to the plan and to the sample that decided, ordered by stage (Jennison and Turnbull 1983). Counting both samples as one would say too much.${left}`
    }
  }
}

/** By what method the fraction of the process is bounded, and what it supposes. */
export function processMethod({ taken }: ProofQuestion): string {
  const steady = 'the cords fail one by one at a steady rate'
  switch (taken.kind) {
    case 'fixed':
      return `Method: Clopper–Pearson (1934), exact by the binomial law; true of the process behind the lot if the number to test was fixed beforehand and ${steady}. For the lot in hand the counts above are the answer.`
    case 'stopped':
      return `Method: exact for a sample that ends with nonconforming cord number ${whole(taken.rejectionNumber)} (inverse sampling, Haldane 1945); true of the process behind the lot if ${steady}.`
    case 'two-samples':
      return `Method: exact by the binomial law for this plan, ordered by stage (Jennison and Turnbull 1983); true of the process behind the lot if ${steady}.`
  }
}
