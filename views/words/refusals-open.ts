// What stands against a question of an open page, in a sentence; these end with a full stop.
import type { QuestionRefusals } from '../../app/terms/refusals-open.ts'

export const questionRefusals: { [C in keyof QuestionRefusals]: (facts: QuestionRefusals[C]) => string } = {
  'question/lot-size': () =>
    'Lot size: a whole number of cords from 1 to 1,000,000. Type digits only: 12000, not 12.000 or 12,000.',
  'question/too-many': () =>
    'Too many: a whole number of cords such as 5, or a share such as 1%, at least 1 cord and at most the lot.',
  'question/confidence': () => 'How many of 100 to catch: a number above 0 and below 100.',
  'question/good': ({ tooMany }) =>
    `Rarely sent back: a number of cords from 0, or a share, and fewer than the number that is too many${tooMany === undefined ? '' : ` (${tooMany})`}.`,
  'question/risk': () => 'How rarely, of 100: a number above 0 and below 100.',
  'question/percent': () =>
    'What you test today: a share above 0 and at most 100 %, a plan such as 50/1 within the lot, or nothing.',
  'question/own-plan': () =>
    `A contract's plan: cords to test and acceptance number, such as 50/1, with no more cords than the lot holds and an acceptance number below them.`,
  'question/quality-limit': () =>
    'Acceptance quality limit: one of the standard’s, 0.010, 0.015, 0.025 and so on to 4.0, 6.5, 10.',
  'question/level': () => 'Inspection level: S-1, S-2, S-3, S-4, I, II or III.',
  'question/severity': () => 'Inspection: normal, tightened or reduced.',
  'question/rate': ({ most }) => `Enter how many cords you test in an hour, a whole number from 1 to ${most}.`,
  'question/test-cost': () => 'Enter what testing one cord costs, such as 1.50, with at most two decimals.',
  'question/escape-cost': () =>
    'Enter what one nonconforming cord in use costs, more than 0, such as 60, with at most two decimals.',
  'proof/tested': () => 'Cords tested: a whole number from 0 to the size of the lot.',
  'proof/found': () => 'Cords that did not conform: a whole number from 0 to the number tested.',
  'proof/confidence': () => 'How sure, of 100: a number from 50 to below 100.',
  'proof/claim': () =>
    'What you would like to say: a whole number such as 5, or a share such as 1%, at least 1 cord and at most the lot.',
  'proof/planned': ({ tested }) =>
    `Cords that the plan tests in all: a whole number from ${tested}, the cords you tested, to the size of the lot.`,
  'proof/rejection': ({ most }) =>
    `The number that rejects the lot: a whole number from 1 to ${most}; in two samples the one for both together.`,
  'proof/first': ({ planned }) => `The first sample: a whole number of cords from 1, fewer than the ${planned} in all.`,
  'proof/accept': ({ rejectionNumber }) =>
    `The first sample accepts with at most: a whole number from 0, at least 2 below the ${rejectionNumber} that rejects.`,
  'proof/first-reject': ({ rejectionNumber }) =>
    `The first sample rejects from: a whole number at most ${rejectionNumber}, and at least 2 above the number that it accepts with.`,
  'proof/second-sample': ({ acceptanceNumber, rejectionNumber }) =>
    `Cords that did not conform: a second sample is drawn only after more than ${acceptanceNumber} and fewer than ${rejectionNumber} in the first, so this number cannot come about.`,
  'proof/not-ended': ({ sampleSize, rejectionNumber }) =>
    `By this plan testing has not ended: it ends with a sample that is tested whole and decides, at most ${sampleSize} cords, or with the cord that brings the rejection number, ${rejectionNumber}.`,
}
