// The sentences of the page "What did my sample prove?".
import type { ProofQuestion } from '../../app/advisor/proof-question.ts'
import type { Needed, Proof } from '../../app/advisor/prove.ts'
import { confidenceOf, counted, whole } from '../figures.ts'

/** The answer in one line: what may still hide among the cords nobody tested. */
export function firstLine({ lotSize, tested, found, confidence }: ProofQuestion, { untested }: Proof): string {
  const rest = lotSize - tested
  const sure = `(${confidenceOf(confidence)} confidence, exact)`
  if (lotSize === 1 && tested === 1)
    return `The one cord of the lot is tested and ${found === 0 ? 'conforms' : 'does not conform'}. Nothing is left to guess.`
  if (rest === 0)
    return `All ${counted(lotSize, 'cord')} of the lot tested: ${found === 0 ? 'all conform' : `${whole(found)} ${found === 1 ? 'does' : 'do'} not conform`}. Nothing is left to guess.`
  if (rest === 1) return `The one untested cord ${untested.atMost === 0 ? 'conforms' : 'may not conform'} ${sure}.`
  if (untested.atMost === 0) return `All ${counted(rest, 'untested cord')} conform ${sure}.`
  if (untested.atMost === rest) return `Every one of the ${counted(rest, 'untested cord')} may not conform ${sure}.`
  return `Up to ${whole(untested.atMost)} of the ${counted(rest, 'untested cord')} may not conform ${sure}.`
}

/** What the reader would like to say, whether the sample says it, and what it would have taken. */
export function claimLine({ lotSize, tested, found, confidence, claim }: ProofQuestion, needed: Needed): string {
  const say = claim === 1 ? 'that all conform' : `fewer than ${whole(claim)}`
  if (needed.kind === 'refuted') return `To say ${say} is out of reach: your sample itself holds ${whole(found)}.`
  const withFound =
    needed.withFound === undefined ? '' : `; or ${whole(needed.withFound)} tested, ${whole(found)} not conforming`
  const taken = `to say ${say} with ${confidenceOf(confidence)} confidence: ${whole(needed.clean)} tested, none not conforming${withFound}`
  return needed.kind === 'shown'
    ? `Your sample does say ${claim === 1 ? say : `that ${say} of the ${whole(lotSize)} do not conform`}; ${taken}.`
    : `What it would have taken ${taken}. Your ${whole(tested)} do not say it.`
}

/** The picture of the lot in words. */
export function inWords({ lotSize, tested, found }: ProofQuestion, { untested }: Proof): string {
  return `${counted(lotSize, 'cord')}: ${whole(tested - found)} tested and conforming, ${whole(found)} tested and not conforming, ${whole(lotSize - tested)} not tested, of which up to ${whole(untested.atMost)} may not conform.`
}
