// How the ways of testing are called, the same in every table and sentence.
import type { OpenAlternative, StandardAlternative } from '../../app/advisor/compare.ts'
import type { Question } from '../../app/advisor/question.ts'
import { counted, wantedOfHundred, whole } from '../figures.ts'
import { wayWords } from '../words/plans.ts'

/** The way in a few words, as a row of a table is headed. */
export function nameOf(way: OpenAlternative, { today }: Question): string {
  switch (way.kind) {
    case 'zero-acceptance':
      return wayWords['zero-acceptance']
    case 'single':
      return 'One sample, both risks limited'
    case 'double':
      return wayWords.double
    case 'groups':
      return `${wayWords.groups} of ${whole(way.stages[0]?.sampleSize ?? 0)}`
    case 'today':
      return `Your ${planWords(way)}`
    case 'standard':
      return wayWords.standard
    case 'percentage':
      return `Your ${today.kind === 'percentage' ? today.percent : ''} %`
    case 'contract':
      return `The contract’s ${planWords(way)}`
    case 'every-cord':
      return wayWords['every-cord']
    case 'no-test':
      return wayWords['no-test']
  }
}

/** What is to be known of a way beside its numbers. */
export function noteOf(way: OpenAlternative, question: Question): string | undefined {
  switch (way.kind) {
    case 'zero-acceptance':
      return way.sampleSize < question.lotSize ? undefined : 'nothing smaller than the lot catches enough'
    case 'single':
      if (way.sampleSize === question.lotSize) return 'nothing smaller than the lot keeps both'
      return undefined
    case 'double':
      return `${whole(way.stages[0]?.sampleSize ?? 0)} first, more only if they leave doubt`
    case 'groups':
      return 'a verdict after each group that is clear'
    case 'standard':
      return `${'standard' in way ? `${letterOf(way, question)}; ` : ''}${protects(way.detectsFrom, question)}`
    case 'percentage':
    case 'today':
    case 'contract':
      return protects(way.detectsFrom, question)
    case 'every-cord':
      return 'keep those that conform, return the rest'
    case 'no-test':
      return 'all goes into use'
  }
}

/** A plan as people write it: 50/1. */
export function planWords({ sampleSize, acceptanceNumber }: { sampleSize: number; acceptanceNumber: number }): string {
  return `${whole(sampleSize)}/${whole(acceptanceNumber)}`
}

/** Where in the standard's tables the plan stands, and whether the reader must look it up in a copy. */
function letterOf({ standard }: StandardAlternative, { standard: wish }: Question): string {
  const { askedLetter, codeLetter, standing } = standard
  const letter = askedLetter === codeLetter ? askedLetter : `${askedLetter}, by the arrows ${codeLetter}`
  const sought = wish ? ` (AQL ${wish.acceptanceQualityLimit}, level ${wish.level}, ${wish.inspection})` : ''
  return `code letter ${letter}${sought}${standingWords[standing]}`
}

const standingWords = {
  read: '',
  derived: '; derived by the table’s own rule: check it against your copy of the standard',
  recalled: '; from a recalled table: check it against your copy of the standard',
}

/** "lots with 5 nonconforming cords": the lots that the question is about. */
export function suchLots({ tooMany }: Question): string {
  return `lots with ${counted(tooMany, 'nonconforming cord')}`
}

export function protects(catchesFrom: number | undefined, { confidence, tooMany }: Question): string {
  const share = `${wantedOfHundred(confidence)} of 100 lots`
  if (catchesFrom === undefined) return `never catches ${share}`
  return `catches ${share} ${catchesFrom > tooMany ? 'only ' : ''}from ${whole(catchesFrom)} on`
}
