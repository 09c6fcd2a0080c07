// The drawn cords in walking order: carton after carton, place after place.
import type { CordState } from '../../items/judge.ts'
import type { Entry } from './entry.ts'

/** An entry that stands, or stood before a correction. */
export type EntryFacts = {
  /** 1 for the first entry, one more for each correction */
  entry: number
  said: Entry
  state: CordState | 'not-tested'
  nonconforming: boolean
  reasons: string[]
  recordedBy: string
  recordedAt: Date
}

export type CordFacts = {
  position: number
  carton: number
  place: number
  purpose: 'sample' | 'stand-in' | 'rest'
  /** 1, 2, 3 … in the order drawn; undefined for the rest of a screened lot */
  pick: number | undefined
  /** the cord that this stand-in replaces */
  standsInFor: number | undefined
  /** the stand-in that replaced this cord */
  replacedBy: number | undefined
  result: EntryFacts | undefined
}
