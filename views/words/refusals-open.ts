// What stands against a question of an open page, in a sentence; these end with a full stop.
import type { QuestionRefusals } from '../../app/terms/refusals-open.ts'

export const questionRefusals: { [C in keyof QuestionRefusals]: (facts: QuestionRefusals[C]) => string } = {
  'question/lot-size': () => 'Lot size: a whole number of cords from 1 to 1,000,000.',
  'question/too-many': () =>
    'Too many: a whole number of cords such as 5, or a share such as 1%, at least 1 cord and at most the lot.',
  'question/confidence': () => 'How many of 100 to catch: a number above 0 and below 100.',
  'question/good': ({ tooMany }) =>
    `Rarely sent back: a number of cords from 0, or a share, and fewer than the number that is too many${tooMany === undefined ? '' : ` (${tooMany})`}.`,
  'question/risk': () => 'How rarely, of 100: a number above 0 and below 100.',
  'question/percent': () => 'What you test today: a percentage above 0 and at most 100.',
  'question/own-plan': () =>
    `A contract's plan: cords to test and acceptance number, such as 50/1, with no more cords than the lot holds and an acceptance number below them.`,
  'proof/tested': () => 'Cords tested: a whole number from 0 to the size of the lot.',
  'proof/found': () => 'Cords that did not conform: a whole number from 0 to the number tested.',
  'proof/confidence': () => 'How sure, of 100: a number from 50 to below 100.',
  'proof/claim': () =>
    'What you would like to say: a whole number such as 5, or a share such as 1%, at least 1 cord and at most the lot.',
}
