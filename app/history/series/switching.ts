// The inspection state of a supplier's series of one item: computed from its decided lots, never typed.
import type { seriesNotes } from '../../../db/schema/register.ts'
import {
  afterLot,
  type InspectedLot,
  resumed,
  type SwitchingState,
  scoreOfSingle,
  startOfSeries,
  steadyEnded,
} from '../../statistics/switching.ts'
import { endOf } from '../counted.ts'
import type { CountedLot } from '../counted-lots.ts'
import { normalPlanOf, reducedPlanOf, type SeriesTerms } from './terms.ts'

export type SeriesInspection = SwitchingState['inspection']

/** What only people know of a series; a manager says it, with a reason. */
export type SeriesNote = { kind: (typeof seriesNotes.$inferSelect)['kind']; reason: string; at: Date }

/** What made the state what it is; no lot where a note of the manager did. */
export type SwitchingChange = {
  from: SeriesInspection
  to: SeriesInspection
  at: Date
  lotId: number | undefined
  note: string | undefined
}

export type Switching = {
  state: SwitchingState
  /** the last change from one inspection to another; undefined while the series is as it began */
  lastChange: SwitchingChange | undefined
  /** decided lots that the rules counted, and those left out because they stand in no series */
  counted: number
  isolated: number
  /** the manager has said that production is steady and reduced inspection is wanted */
  reducedWanted: boolean
}

/**
 * Where the series of a supplier and an item stands under the switching rules.
 *
 * A lot counts as accepted where the plan's verdict was to accept and the manager did not take it by concession; a lot of which
 * every cord was tested from the start, where fewer than too many were found. Isolated lots are left out. The way to
 * tightened inspection and back and to a discontinued series is that of MIL-STD-105E (1989), 4.7 and 4.8; the way to reduced
 * inspection is the switching score of ISO 2859-1:1999, 9.3.3 (from memory), and a manager's word that it is wanted.
 *
 * @param lots and notes: all of one series
 */
export function switchingAfter(lots: CountedLot[], notes: SeriesNote[], terms: SeriesTerms | undefined): Switching {
  const events = [
    ...lots.flatMap((lot) => (lot.decided && !lot.isolated ? [{ at: lot.decided.at, lot }] : [])),
    ...notes.map((note) => ({ at: note.at, note })),
  ].toSorted((one, other) => one.at.getTime() - other.at.getTime())
  let state = startOfSeries
  let lastChange: SwitchingChange | undefined
  let reducedWanted = false
  for (const event of events) {
    if ('note' in event) reducedWanted = wantedAfter(event.note, reducedWanted)
    const next =
      'note' in event
        ? afterNote(state, event.note)
        : afterLot(state, inspected(event.lot, terms, reducedWanted), '1999')
    if (next.inspection !== state.inspection)
      lastChange = {
        from: state.inspection,
        to: next.inspection,
        at: event.at,
        lotId: 'lot' in event ? event.lot.lotId : undefined,
        note: 'note' in event ? event.note.reason : undefined,
      }
    state = next
  }
  const counted = events.filter((event) => 'lot' in event).length
  const isolated = lots.filter((lot) => lot.decided && lot.isolated).length
  return { state, lastChange, counted, isolated, reducedWanted }
}

/** The notes that would change something for a series as it stands. */
export function possibleNotes({ state, reducedWanted }: Switching): SeriesNote['kind'][] {
  if (state.inspection === 'discontinued') return ['supplier-acted']
  return [reducedWanted ? 'reduced-ended' : 'reduced-wanted']
}

function wantedAfter({ kind }: SeriesNote, before: boolean): boolean {
  return kind === 'supplier-acted' ? before : kind === 'reduced-wanted'
}

function afterNote(state: SwitchingState, { kind }: SeriesNote): SwitchingState {
  switch (kind) {
    case 'supplier-acted':
      return resumed(state)
    case 'reduced-ended':
      return steadyEnded(state)
    case 'reduced-wanted':
      return state
  }
}

/** Whether the rules count a decided lot as accepted on its first inspection. */
export function acceptedBySwitching({ planKind, decided, all, tooMany }: CountedLot): boolean {
  if (!decided || decided.outcome === 'conceded') return false
  return planKind === 'every-cord' ? all.found < tooMany : decided.verdict === 'accept'
}

function inspected(lot: CountedLot, terms: SeriesTerms | undefined, reducedWanted: boolean): InspectedLot {
  const found = lot.decided?.found ?? 0
  const accepted = acceptedBySwitching(lot)
  const reduced = terms && reducedPlanOf(terms, lot.size)
  const asReduced = reduced?.plan.stages.at(-1)
  const byReduced = asReduced?.sampleSize === lot.sampleSize && asReduced.acceptanceNumber === lot.acceptanceNumber
  return {
    original: true,
    accepted,
    inGap: byReduced && reduced !== undefined && found > reduced.staysUpTo,
    score: accepted ? scoreOf(lot, found, terms) : 0,
    steady: reducedWanted,
    reducedWanted,
    withinLimitNumber: false, // asked by the older edition's way to reduced inspection alone
  }
}

/**
 * A plan of two samples adds where its first one accepts. Where the lot was not tested by the standard's own plan, the acceptance number one step tighter is not known: then with 2 or
 * more allowed only a clean sample adds to the score.
 */
function scoreOf(lot: CountedLot, found: number, terms: SeriesTerms | undefined): InspectedLot['score'] {
  if (lot.stages.length > 1) return endOf(lot, lot.decided?.recorded ?? 0).stage === 1 ? 3 : 0
  const acceptanceNumber = lot.planKind === 'every-cord' ? lot.tooMany - 1 : lot.acceptanceNumber
  const standard = terms && normalPlanOf(terms, lot.size)
  const own = standard?.plan.stages[0]
  const byStandard = own?.sampleSize === lot.sampleSize && own.acceptanceNumber === acceptanceNumber
  const tighterAcceptanceNumber = (byStandard && standard?.tighterAcceptanceNumber) || 0
  return scoreOfSingle({ found, acceptanceNumber, tighterAcceptanceNumber })
}
