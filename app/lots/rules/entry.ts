// What an inspector says of one drawn cord.
import type { InspectionResult, ResultKind } from '../../terms/cord.ts'

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

/** No readings, and the note says why: what each kind means stands at `resultKinds`. */
export type UntestedEntry = { kind: Exclude<ResultKind, 'tested'>; note: string }

export type Entry = TestedEntry | UntestedEntry
