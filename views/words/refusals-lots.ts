// What cannot be done with a lot, its plan or its decision, in a sentence.
import type { LotAct, LotState, StagedKind } from '../../app/terms/lot.ts'
import type { LotRefusals } from '../../app/terms/refusals-lots.ts'
import { stateInRefusal } from './lots.ts'

export const lotRefusals: { [C in keyof LotRefusals]: (facts: LotRefusals[C]) => string } = {
  'lot/missing': ({ lot }) => `There is no lot ${lot}`,
  'lot/state': ({ lot, state, act }) => `Lot ${lot} ${standsBefore(state, act)} and cannot be ${doneWith[act]}`,
  'lot/changed-since': ({ lot }) =>
    `Lot ${lot} was changed since this page was opened: look at it again, nothing was done`,
  'lot/note-length': () => 'The note has at most 2,000 characters',
  'lot/withdrawal-reason': () => 'Say why the lot is withdrawn (1 to 2,000 characters)',
  'lot/not-drawn': ({ lot }) => `Lot ${lot} is not drawn yet`,
  'lot/not-to-decide': ({ lot }) => `Lot ${lot} is not to be decided on now`,
  'document/not-closed': ({ lot }) =>
    `Lot ${lot} has no note yet: it goes with the cords once the last decision is signed`,
  'document/no-notice': ({ lot }) => `Lot ${lot} needs no notice: only a lot that is not accepted has one`,
  'lot/not-to-close': ({ lot }) => `Lot ${lot} is not screened, or it is closed already`,

  'lot/supplier-unknown': () => 'Choose a supplier of the register',
  'lot/item-unknown': () => 'Choose an item of the register',
  'lot/size': () => 'A lot has 1 to 1,000,000 cords',
  'lot/cartons': () => 'A lot has 1 to 1,000,000 cartons',
  'lot/cords-in-carton': () => 'A carton holds 1 to 1,000,000 cords',
  'lot/packing': ({ size, cordsInCarton, needed, cartons }) =>
    `${size} cords at ${cordsInCarton} in a carton fill ${needed} cartons, not ${cartons}`,
  'lot/production-mark': () => 'Give the production mark (1 to 120 characters)',
  'lot/purchase-order': () => 'Give the purchase-order reference (1 to 120 characters)',

  'former/missing': ({ lot }) => `There is no lot ${lot}: type the number of the lot that went back`,
  'former/other-series': ({ lot }) => `Lot ${lot} is of another supplier or item`,
  'former/not-sent-back': ({ lot }) =>
    `Lot ${lot} did not go back: only then does it come again, or another in its place`,
  'former/resubmitted-before': ({ lot }) =>
    `Lot ${lot} was sent again before: a lot is resubmitted once, and goes back for good after that`,
  'former/larger': ({ lot, size }) => `Lot ${lot} had ${size} cords: what comes again is no larger`,
  'former/sorting': () => 'Say what the supplier declares to have sorted (1 to 2,000 characters)',

  'plan/missing': ({ lot }) => `Lot ${lot} has no plan yet`,
  'plan/weaker': () => 'This plan lets more lots with too many through than the item demands: say why it is taken',
  'plan/no-clause': () =>
    'Neither the order nor the item carries a clause of the contract: say in words why it is taken',
  'rule/no-plan': ({ lotSize }) => `This rule has no plan for ${lotSize} cords`,
  'receipt/shown-otherwise': ({ lot }) =>
    `What the receipt of lot ${lot} would do to its plan is not what you were shown: look at it again, nothing was done`,
  'plan/reason-length': () => 'The reason has at most 2,000 characters',
  'plan/critical': () => 'The item is critical, so its lots are always tested whole',
  'plan/sample-size': ({ lotSize }) => `From 1 to ${lotSize} cords can be tested`,
  'plan/every-cord': ({ lotSize }) => `Every cord is ${lotSize} cords, and each is kept or sent back by its own result`,
  'plan/acceptance-number': ({ most }) => `The acceptance number is from 0 to ${most}`,
  'plan/zero-acceptance': () => 'A zero-acceptance plan has acceptance number 0',
  'stages/of-kind': ({ kind }) => looks[kind],
  'stages/cord-by-cord': () => 'Cord by cord, each stage adds one cord',
  'stages/groups': ({ groupSize }) =>
    `This item is tested in groups of ${groupSize} cords, the last one smaller only where the lot ends: load the page again`,
  'stages/no-growth': () => 'Each stage adds at least one cord',
  'stages/accepts-fewer': () => 'A later stage accepts no fewer',
  'stages/rejects-from-fewer': () => 'A later stage rejects from no fewer',
  'stages/last-number': ({ most }) => `The last acceptance number is from 0 to ${most}`,
  'stages/no-plan': ({ lotSize, why }) => `This is no plan for ${lotSize} cords: ${why}`,

  'decision/missing': ({ lot }) => `Lot ${lot} has no such decision`,
  'decision/no-verdict': ({ lot }) => `Lot ${lot} has no verdict yet`,
  'decision/recorded-so-far': ({ lot, recorded, sampleSize, found }) =>
    `The plan of lot ${lot} has no verdict yet: ${recorded} of ${sampleSize} cords are recorded, of which ${found} count as not conforming`,
  'decision/undecided': ({ undecided }) =>
    `${undecided === 1 ? '1 drawn cord is' : `${undecided} drawn cords are`} not decided: rule on ${undecided === 1 ? 'it' : 'them'} first, or return the lot`,
  'decision/sample-incomplete': ({ recorded, of }) =>
    `${recorded} of ${of} cords are recorded: the plan has no verdict yet`,
  'decision/screening-incomplete': ({ recorded, of }) => `${recorded} of ${of} cords are recorded`,
  'decision/against-the-plan': ({ verdict }) => `The plan says ${verdict}: give a reason to decide otherwise`,
  'decision/nothing-to-screen': () => 'Every cord of the lot is recorded: there is nothing left to screen',
  'decision/own-results': ({ lot, name }) =>
    `${name} recorded results of lot ${lot}: another manager has to decide on it`,
  'decision/reason-length': () => 'The reason has at most 2,000 characters',
  'decision/later-evidence': ({ lot }) =>
    `The evidence of lot ${lot} was written by a later version of Cordsift: update this service to read it`,
  'concession/risk-bearer': () => 'Say who bears the risk and agreed (1 to 300 characters)',
  'concession/use': () => 'Say for which use (1 to 300 characters)',
  'concession/cords': () => 'Say for how many cords, 1 or more',
  'concession/more-than-lot': ({ lotSize }) => `The lot has ${lotSize} cords`,
  'concession/until': () => 'Say until when, as a date',
}

const looks: Record<StagedKind, string> = {
  double: 'Two samples are two stages',
  groups: 'A plan by groups has from 2 to 5,000 groups',
  sequential: 'A plan cord by cord has at most 10,000 cords',
  standard: 'The standard’s plans here have one or two samples',
}

/** What an act makes of a lot: it cannot be … */
const notYet: Partial<Record<LotState, string>> = {
  announced: 'has not been received yet',
  received: 'has no frozen plan yet',
  planned: 'has not been drawn yet',
}

/** Acts that come early in a lot's record: after them it is too late for them, before the others something must happen first. */
const early: LotAct[] = ['correct', 'choose-rule', 'receive', 'plan', 'draw', 'withdraw']

/** What must happen first, or where the lot stands. */
function standsBefore(state: LotState, act: LotAct): string {
  const first = notYet[state]
  const ahead = !early.includes(act) || state === 'announced' || (state === 'received' && act === 'draw')
  return first !== undefined && ahead ? first : `is ${stateInRefusal[state]}`
}

const doneWith: Record<LotAct, string> = {
  correct: 'corrected',
  'choose-rule': 'given a rule for its plan',
  receive: 'received',
  withdraw: 'withdrawn',
  plan: 'planned',
  draw: 'drawn',
  record: 'tested',
  amend: 'corrected',
  rule: 'ruled on',
  accept: 'decided on',
  concede: 'decided on',
  screen: 'decided on',
  return: 'decided on',
  sort: 'decided on',
}
