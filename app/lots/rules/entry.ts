// What an inspector says of one drawn cord.
import type { InspectionResult } from '../../terms/cord.ts'

/** Margins are signed plain decimals in dB, every digit as the tester gave it; from −100 to 100. */
export type TestedEntry = {
  kind: 'tested'
  crosstalkMargin: string | undefined
  returnLossMargin: string | undefined
  wireMap: InspectionResult
  visual: InspectionResult
  carton: string | undefined
  spool: string | undefined
  testerSerial: string | undefined
}

/** missing: not in its place; untestable: there, but it cannot be tested. Counts as nonconforming until a stand-in takes its place. */
export type UntestedEntry = { kind: 'missing' | 'untestable'; note: string }

export type Entry = TestedEntry | UntestedEntry
