// What cannot be done with a cord or its entry, in a sentence.
import type { CordRefusals } from '../../app/terms/refusals-cords.ts'
import { parameterWords } from './cords.ts'

export const cordRefusals: { [C in keyof CordRefusals]: (facts: CordRefusals[C]) => string } = {
  'cord/unknown': ({ lot, position }) => `Cord ${position} of lot ${lot} was not drawn`,
  'cord/not-drawn': ({ position }) => `Cord ${position} was not drawn`,
  'cord/recorded-before': ({ position, recordedBy }) =>
    `Cord ${position} was recorded by ${recordedBy}: correct that entry instead`,
  'cord/later-stage': ({ position }) =>
    `Cord ${position} belongs to a later stage of the plan: those before it come first`,
  'cord/after-verdict': ({ position }) => `The plan has its verdict without cord ${position}: it is not tested`,
  'correction/reason': () => 'Say why the entry is corrected (1 to 500 characters)',
  'correction/no-entry': ({ position }) => `Cord ${position} has no entry to correct`,
  'correction/corrected-since': ({ position }) =>
    `The entry of cord ${position} was corrected since this page was opened: look at it again`,
  'correction/closed': ({ position }) => `Another cord is tested in place of cord ${position}: its entry is closed`,
  'correction/ruled': ({ position }) => `A manager has ruled on cord ${position}: its entry is closed`,
  'ruling/reason': () => 'Say why you rule so (1 to 500 characters)',
  'ruling/not-needed': ({ position }) => `Cord ${position} does not wait for a ruling`,
  'ruling/corrected-since': ({ position }) =>
    `The report of cord ${position} was corrected since this page was opened: look at it again`,
  'ruling/own-report': ({ position, name }) =>
    `${name} reported cord ${position} and so does not rule on it: another manager does`,
  'ruling/none-left': () => 'Every place of the lot is drawn: no reserve is left, so the cord can only count',
  'recount/reason': () => 'Say how it was counted again (1 to 500 characters)',
  'recount/size': ({ least, most }) =>
    `With this place empty the lot has at least ${least} and at most ${most} cords: count again`,
  'recount/plan-needs-more': ({ needed }) =>
    `This plan of several samples may need ${needed} cords: a smaller lot is withdrawn, announced and planned again`,

  'entry/kind': () => 'Choose what is the matter',
  'entry/note': () => 'Say why (1 to 500 characters)',
  'entry/mark': () => 'A mark has at most 60 characters',
  'reading/missing': ({ parameter }) =>
    `Give the ${parameterWords[parameter]} margin: no reading is not a conforming reading`,
  'reading/no-number': ({ parameter }) =>
    `The ${parameterWords[parameter]} margin is a number of dB such as 1.7 or −0.04`,
  'reading/out-of-range': ({ parameter }) => `A ${parameterWords[parameter]} margin is between −100 and 100 dB`,
  'reading/failing-zero': () => 'A cord short of the limit has more than 0 dB: read every digit that the tester keeps',
  'reading/nothing-typed': () => 'Type how many dB the tester shows',
  'reading/typed-no-number': () => 'Type a number of dB such as 1.7 or 0,04',
  'reading/no-side': () => 'Choose above the limit or short of the limit',
  'reading/contradiction': () =>
    'The sign says one thing and the choice another: choose the side that the tester shows',
}
