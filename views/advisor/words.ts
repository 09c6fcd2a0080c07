// How the ways of testing are called, the same in every table and sentence.
import type { OpenAlternative } from '../../app/advisor/compare.ts'
import type { Question } from '../../app/advisor/question.ts'
import { counted, wantedOfHundred, whole } from '../figures.ts'
import { wayWords } from '../words/plans.ts'

/** The way in a few words, as a row of a table is headed. */
export function nameOf(way: OpenAlternative, { today }: Question): string {
  switch (way.kind) {
    case 'zero-acceptance':
      return wayWords['zero-acceptance']
    case 'single':
      return 'Both risks kept'
    case 'percentage':
      return `${today.percent} %, ${way.acceptanceNumber === 0 ? 'none' : 'one'} allowed`
    case 'contract':
      return `The contract’s ${way.sampleSize}/${way.acceptanceNumber}`
    case 'every-cord':
      return wayWords['every-cord']
    case 'no-test':
      return wayWords['no-test']
  }
}

/** What is to be known of a way beside its numbers. */
export function noteOf(way: OpenAlternative, question: Question): string {
  switch (way.kind) {
    case 'zero-acceptance':
      return way.sampleSize < question.lotSize ? 'zero-acceptance plan' : 'nothing smaller than the lot catches enough'
    case 'single':
      if (way.sampleSize === question.lotSize) return 'nothing smaller than the lot keeps both'
      return `single plan: catches lots with ${whole(question.tooMany)}, spares lots with ${whole(question.good.nonconforming)}`
    case 'percentage':
    case 'contract':
      return `${way.kind === 'percentage' && way.acceptanceNumber === 0 ? 'yours today; ' : ''}${protects(way.detectsFrom, question)}`
    case 'every-cord':
      return 'conforming cords are kept, the others go back'
    case 'no-test':
      return 'everything ships'
  }
}

/** "lots with 5 nonconforming cords": the lots that the question is about. */
export function suchLots({ tooMany }: Question): string {
  return `lots with ${counted(tooMany, 'nonconforming cord')}`
}

export function protects(catchesFrom: number | undefined, { confidence, tooMany }: Question): string {
  const share = `${wantedOfHundred(confidence)} of 100 lots`
  if (catchesFrom === undefined) return `never catches ${share}`
  return `catches ${share} ${catchesFrom > tooMany ? 'only ' : ''}from ${counted(catchesFrom, 'nonconforming cord')} on`
}
