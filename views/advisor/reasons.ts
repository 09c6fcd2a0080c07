// The advice in one line and its reason in plain words.
import type { Comparison, OpenAlternative, SampledAlternative } from '../../app/advisor/compare.ts'
import type { Question, QuestionText } from '../../app/advisor/question.ts'
import { counted, frequency, wantedOfHundred, whole } from '../figures.ts'
import { planWords, protects, suchLots } from './words.ts'

/** What to do: the first line of the answer. */
export function adviceIn(advised: OpenAlternative, { lotSize }: Question): string {
  if (!('acceptanceNumber' in advised))
    return lotSize === 1
      ? 'Test the one cord and keep it if it conforms.'
      : `Test every one of the ${whole(lotSize)} cords; keep those that conform and send the others back.`
  const { sampleSize, acceptanceNumber } = advised
  const test = `Test ${whole(sampleSize)} of the ${whole(lotSize)} cords and accept the lot only if`
  if (acceptanceNumber === 0) return `${test} ${sampleSize === 1 ? 'it conforms' : 'all of them conform'}.`
  return `${test} at most ${whole(acceptanceNumber)} ${acceptanceNumber === 1 ? 'does' : 'do'} not conform.`
}

/** Why this and not less, what the reader's percentage does beside it, and what the advice costs in good lots. */
export function reasonFor(question: Question, comparison: Comparison): string {
  const { advised } = comparison
  const catches = `catches at least ${wantedOfHundred(question.confidence)} of 100 ${suchLots(question)}`
  const spares = `sends back at most ${wantedOfHundred(question.good.risk)} of 100 lots with ${whole(question.good.nonconforming)}`
  const wanted = question.good.demanded ? `${catches} and ${spares}` : catches
  const why =
    advised.kind === 'every-cord'
      ? `No sample smaller than the lot ${wanted}.`
      : `This ${wanted}; no single sample of fewer cords does.`
  return `${why}${todayBeside(question, comparison)}${priceOf(advised, question)}`
}

function todayBeside(question: Question, { advised, today }: Comparison): string {
  if (!today) return ''
  const lets = `lets ${frequency(today.acceptance.yes, today.acceptance.no, 1 - question.confidence)} such lots through`
  const yours = ` Your ${todayWords(question, today)} ${lets}`
  if (today.sampleSize < advised.sampleSize)
    return `${yours}: what protects you is how many cords are tested, not which share of the lot they are.`
  return `${yours}, ${today.sampleSize === advised.sampleSize ? 'with as many cords' : 'but tests more cords'}.`
}

function todayWords({ today }: Question, plan: SampledAlternative): string {
  if (today.kind !== 'percentage') return planWords(plan)
  return `${today.percent} %, ${counted(plan.sampleSize, 'cord')} with none allowed,`
}

/** Only the plan that nobody asked to spare good lots has this price; the others were chosen for it or send none back. */
function priceOf(advised: OpenAlternative, { good }: Question): string {
  if (advised.kind !== 'zero-acceptance' || good.nonconforming === 0) return ''
  const back = frequency(advised.producersRisk.yes, advised.producersRisk.no)
  return ` With none allowed, ${back} lots that hold only ${whole(good.nonconforming)} are sent back too: say above which lots should rarely be, and the plan for both is advised.`
}

/** What the plan that a contract names really protects against. */
export function contractIn(question: Question, { alternatives }: Comparison): string | undefined {
  const contract = alternatives.find((way) => way.kind === 'contract')
  if (!contract || !('detectsFrom' in contract)) return undefined
  const lets = frequency(contract.acceptance.yes, contract.acceptance.no, 1 - question.confidence)
  return `The contract’s ${planWords(contract)} lets ${lets} ${suchLots(question)} through; it ${protects(contract.detectsFrom, question)}.`
}

/** How shares came to whole cords: what is too many is rounded up, what a good lot may hold is rounded down. */
export function sharesIn({ limit, good }: QuestionText, { lotSize, ...question }: Question): string | undefined {
  const said = [
    limit.includes('%') &&
      `${limit} of ${whole(lotSize)} cords, rounded up to whole cords, is ${whole(question.tooMany)}.`,
    good.includes('%') &&
      `${good} of them, rounded down to whole cords, is ${whole(question.good.nonconforming)}: a good lot holds no more.`,
  ].filter((sentence) => sentence !== false)
  return said.length === 0 ? undefined : said.join(' ')
}
