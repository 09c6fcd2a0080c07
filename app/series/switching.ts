// The inspection state of a supplier's series of one item: computed from its decided lots, never typed.
import type { seriesNotes } from '../../db/schema/register.ts'
import type { SeriesTerms } from '../lots/rules/standard-terms.ts'
import { afterLot, resumed, type SwitchingState, startOfSeries, steadyEnded } from '../statistics/switching.ts'
import { differingStates, inspectionIsKnown, strictestState } from '../statistics/switching-possible.ts'
import type { InspectedLotFacts } from './inspected-lots.ts'
import { outsideSeries } from './outside.ts'
import { type LotVerdict, lotVerdict, possibleInspections } from './verdicts.ts'

export type SeriesInspection = SwitchingState['inspection']

/** not-known: a lot has no verdict under the standard, and what it would have been matters still. */
export type KnownInspection = SeriesInspection | 'not-known'

/** What only people know of a series; a manager says it, with a reason. */
export type SeriesNote = { kind: (typeof seriesNotes.$inferSelect)['kind']; reason: string; at: Date }

/** What made the state what it is; no lot where a note of the manager did. */
export type SwitchingChange = {
  from: KnownInspection
  to: KnownInspection
  at: Date
  lotId: number | undefined
  note: string | undefined
}

export type Switching = {
  inspection: KnownInspection
  /** where the series stands; of several states the strictest, by which the next lot is inspected */
  state: SwitchingState
  /** the inspections in which it may stand, the strictest first: one where it is known */
  possible: SeriesInspection[]
  /** least and most that the switching score may be; undefined where no state has one */
  score: { least: number; most: number } | undefined
  /** the last change from one inspection to another; undefined while the series is as it began */
  lastChange: SwitchingChange | undefined
  /** lots without a verdict that may still matter, the oldest first */
  unsettled: number[]
  /** so many lots accepted in a row from now make the state known; undefined where it is, or where that is not enough */
  knownAfter: number | undefined
  /** of each decided lot that the rules counted, in the order of the decisions */
  verdicts: LotVerdict[]
  /** decided lots left out because they stand in no series */
  outside: number
  /** the manager has said that production is steady and reduced inspection is wanted */
  reducedWanted: boolean
}

/** One way in which the series may have gone. `planned`: the inspection at the moment when each lot that waits was planned. */
type Course = { state: SwitchingState; planned: { lotId: number; inspection: SeriesInspection }[] }

type Event = { at: Date } & ({ lot: InspectedLotFacts } | { note: SeriesNote } | { planned: number })

/**
 * Where the series of a supplier and an item stands under the switching rules.
 *
 * The verdict of a lot is that of the standard's own plan on the first picks of its draw, whatever the house's plan or the
 * manager said. Where it has none, it is neither dropped nor counted as accepted: every course that the series may have taken is
 * followed, and the state is known again once all of them have come to the same. Lots outside the series are left out.
 *
 * The way to tightened inspection and back and to a discontinued series is that of MIL-STD-105E (1989), 4.7 and 4.8; the way to
 * reduced inspection is the switching score of ISO 2859-1:1999, 9.3.3 (from memory), and a manager's word that it is wanted.
 *
 * @param lots and notes: all of one series
 */
export function switchingAfter(lots: InspectedLotFacts[], notes: SeriesNote[], terms: SeriesTerms): Switching {
  const inside = lots.filter((lot) => !outsideSeries(lot))
  let now = beginning
  for (const event of eventsOf(inside, notes)) now = after(now, event, terms)
  const { courses, reducedWanted, lastChange, verdicts } = now
  const states = courses.map(({ state }) => state)
  const inspection = inspectionOf(states)
  return {
    inspection,
    state: strictestState(states),
    possible: [...new Set(strictestFirst(states))],
    score: scoreOf(states),
    lastChange,
    unsettled: now.unsettled,
    knownAfter: inspection === 'not-known' ? acceptedUntilKnown(states, reducedWanted) : undefined,
    verdicts,
    outside: lots.length - inside.length,
    reducedWanted,
  }
}

/** The notes that would change something for a series as it stands. */
export function possibleNotes({ possible, reducedWanted }: Switching): SeriesNote['kind'][] {
  const wish: SeriesNote['kind'] = reducedWanted ? 'reduced-ended' : 'reduced-wanted'
  if (!possible.includes('discontinued')) return [wish]
  return possible.length === 1 ? ['supplier-acted'] : ['supplier-acted', wish]
}

type Now = Pick<Switching, 'reducedWanted' | 'lastChange' | 'unsettled' | 'verdicts'> & { courses: Course[] }

const beginning: Now = {
  courses: [{ state: startOfSeries, planned: [] }],
  reducedWanted: false,
  lastChange: undefined,
  unsettled: [],
  verdicts: [],
}

/** In the order of time. A lot without a frozen standard's plan asks for the state at the moment when its own plan was frozen. */
function eventsOf(lots: InspectedLotFacts[], notes: SeriesNote[]): Event[] {
  return [
    ...lots.map((lot) => ({ at: lot.decidedAt, lot })),
    ...notes.map((note) => ({ at: note.at, note })),
    ...lots.flatMap((lot) => (lot.standard ? [] : [{ at: lot.frozenAt, planned: lot.lotId }])),
  ].toSorted((one, other) => one.at.getTime() - other.at.getTime())
}

function after(now: Now, event: Event, terms: SeriesTerms): Now {
  if ('planned' in event) {
    const planned = (state: SwitchingState) => ({ lotId: event.planned, inspection: state.inspection })
    return {
      ...now,
      courses: now.courses.map((each) => ({ ...each, planned: [...each.planned, planned(each.state)] })),
    }
  }
  const next = 'note' in event ? afterNote(now, event.note) : afterDecision(now, event.lot, terms)
  const courses = differing(next.courses)
  const [from, to] = [now, { courses }].map((each) => inspectionOf(each.courses.map(({ state }) => state)))
  const change = { at: event.at, lotId: lotIn(event), note: 'note' in event ? event.note.reason : undefined }
  return {
    ...next,
    courses,
    lastChange: from && to && from !== to ? { from, to, ...change } : now.lastChange,
    unsettled: courses.length === 1 ? [] : next.unsettled,
  }
}

function lotIn(event: Event): number | undefined {
  return 'lot' in event ? event.lot.lotId : undefined
}

function afterNote(now: Now, note: SeriesNote): Now {
  const courses = now.courses.map((course) => ({ ...course, state: noted(course.state, note) }))
  const wanted = note.kind === 'supplier-acted' ? now.reducedWanted : note.kind === 'reduced-wanted'
  return { ...now, courses, reducedWanted: wanted }
}

function noted(state: SwitchingState, { kind }: SeriesNote): SwitchingState {
  switch (kind) {
    case 'supplier-acted':
      return resumed(state)
    case 'reduced-ended':
      return steadyEnded(state)
    case 'reduced-wanted':
      return state
  }
}

function afterDecision(now: Now, lot: InspectedLotFacts, terms: SeriesTerms): Now {
  const each = now.courses.map((course) => ({ course, verdict: lotVerdict(lot, terms, severityIn(course, lot)) }))
  const courses = each.flatMap(({ course: { state, planned }, verdict }) =>
    possibleInspections(verdict, now.reducedWanted).map((inspected) => ({
      state: afterLot(state, inspected, '1999'),
      planned: planned.filter(({ lotId }) => lotId !== lot.lotId),
    })),
  )
  const verdict = together(each.map(({ verdict }) => verdict))
  const unsettled = verdict.verdict === 'not known' ? [...now.unsettled, lot.lotId] : now.unsettled
  return { ...now, courses, unsettled, verdicts: [...now.verdicts, verdict] }
}

/** A discontinued series begins again under tightened inspection: a lot that came meanwhile is taken under it, or changes nothing. */
function severityIn({ state, planned }: Course, { lotId }: InspectedLotFacts) {
  const inspection = planned.find((each) => each.lotId === lotId)?.inspection ?? state.inspection
  return inspection === 'discontinued' ? 'tightened' : inspection
}

/** Of a lot without a frozen plan the courses may have asked for different ones: it has a verdict where all have the same. */
function together(verdicts: LotVerdict[]): LotVerdict {
  const [first] = verdicts
  if (!first) throw new Error('a series has a course')
  return verdicts.every(({ verdict }) => verdict === first.verdict) ? first : { ...first, verdict: 'not known' }
}

/** Courses that differ in what may follow, each once. */
function differing(courses: Course[]): Course[] {
  const plans = new Map(courses.map(({ planned }) => [JSON.stringify(planned), planned]))
  return [...plans].flatMap(([key, planned]) => {
    const states = courses.filter((each) => JSON.stringify(each.planned) === key).map(({ state }) => state)
    return differingStates(states).map((state) => ({ state, planned }))
  })
}

function inspectionOf(states: SwitchingState[]): KnownInspection {
  return inspectionIsKnown(states) ? strictestState(states).inspection : 'not-known'
}

function strictestFirst(states: SwitchingState[]): SeriesInspection[] {
  const left = [...states]
  const ordered: SeriesInspection[] = []
  while (left.length > 0) {
    const state = strictestState(left)
    ordered.push(state.inspection)
    left.splice(left.indexOf(state), 1)
  }
  return ordered
}

function scoreOf(states: SwitchingState[]): Switching['score'] {
  const scores = states.flatMap((state) => (state.inspection === 'normal' ? [state.score] : []))
  return scores.length === 0 ? undefined : { least: Math.min(...scores), most: Math.max(...scores) }
}

const mostAhead = 30

/** Lots accepted in a row after which all states agree: without a nonconforming cord, so that each adds 2 to the score. */
function acceptedUntilKnown(states: SwitchingState[], reducedWanted: boolean): number | undefined {
  const clean = { original: true, accepted: true, inGap: false, score: 2, withinLimitNumber: false } as const
  let ahead = states
  for (let lots = 1; lots <= mostAhead; lots++) {
    ahead = ahead.map((state) => afterLot(state, { ...clean, steady: reducedWanted, reducedWanted }, '1999'))
    if (inspectionIsKnown(ahead)) return lots
  }
  return undefined
}
