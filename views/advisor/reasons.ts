// The advice in one line and its reason in plain words.
import type { Comparison, OpenAlternative, SampledAlternative } from '../../app/advisor/compare.ts'
import type { Question, QuestionText } from '../../app/advisor/question.ts'
import { frequency, wantedOfHundred, whole } from '../figures.ts'
import { planWords, protects, suchLots } from './words.ts'

/** What to do: the first line of the answer. */
export function adviceIn(advised: OpenAlternative, { lotSize }: Question): string {
  if (!('acceptanceNumber' in advised))
    return lotSize === 1
      ? 'Test the one cord and keep it if it conforms.'
      : `Test every one of the ${whole(lotSize)} cords: keep those that conform, send the others back.`
  const { sampleSize, acceptanceNumber } = advised
  const allows = acceptanceNumber === 0 ? 'none' : `at most ${whole(acceptanceNumber)}`
  return `Test ${whole(sampleSize)} of the ${whole(lotSize)} cords. The plan allows ${allows}.`
}

/** Why this and not less, and what the reader does today beside it. */
export function reasonFor(question: Question, comparison: Comparison): string {
  const { advised } = comparison
  const catches = `catches ${wantedOfHundred(question.confidence)} of 100 ${suchLots(question)}`
  const spares = `rejects at most ${wantedOfHundred(question.good.risk)} of 100 lots with ${whole(question.good.nonconforming)}`
  const wanted = question.good.demanded ? `${catches} and ${spares}` : catches
  const why =
    advised.kind === 'every-cord'
      ? `No sample smaller than the lot ${wanted}.`
      : `It ${wanted}; no smaller single sample does.`
  return `${why}${todayBeside(question, comparison)}`
}

function todayBeside(question: Question, { advised, today }: Comparison): string {
  if (!today) return ''
  const lets = `lets ${frequency(today.acceptance.yes, today.acceptance.no, 1 - question.confidence)} through`
  const yours = ` Your ${todayName(question, today)} ${lets}`
  if (today.sampleSize < advised.sampleSize)
    return `${yours}: protection comes from the number tested, not from the percentage.`
  return `${yours}, ${today.sampleSize === advised.sampleSize ? 'with as many cords' : 'but tests more cords'}.`
}

/** What the reader does today, in a word. */
export function todayName({ today }: Question, plan: SampledAlternative): string {
  return today.kind === 'percentage' ? `${today.percent} %` : planWords(plan)
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
