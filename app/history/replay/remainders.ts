// Whether cords of one spool stand or fall together, and what that makes of a clean sample.
import { cleanRemainder } from '../../statistics/clustering/clean-remainder.ts'
import { type Intraclass, intraclassCorrelation } from '../../statistics/clustering/intraclass.ts'
import type { AlikeSpools } from './spools.ts'

export type SpoolFacts = {
  /** spools with at least one cord recorded, and the cords that carry a mark */
  spools: number
  cords: number
  /** undefined where no cord carries a mark */
  correlation: Intraclass | undefined
}

export function factsOfSpools(alike: AlikeSpools[]): SpoolFacts {
  const marked = alike.flatMap(({ spools, ...spool }) =>
    spool.sampleSize > 0 ? Array.from({ length: spools }, () => spool) : [],
  )
  const cords = marked.reduce((sum, group) => sum + group.sampleSize, 0)
  return { spools: marked.length, cords, correlation: cords === 0 ? undefined : intraclassCorrelation(marked) }
}

/** Chances that the rest of a lot is clean after a clean sample: units alike, units with a correlation, units one by one. */
export type Remainders = {
  lotSize: number
  sampleSize: number
  alike: number
  oneByOne: number
  estimated: number | undefined
}

/** `fraction` of units nonconforming on average; `correlation` between two units, where one was estimated. */
export function remaindersOf(
  lotSize: number,
  sampleSize: number,
  { fraction, correlation }: { fraction: number; correlation: number | undefined },
): Remainders {
  const remainder = (between: number) => cleanRemainder({ lotSize, sampleSize, fraction, correlation: between })
  return {
    lotSize,
    sampleSize,
    alike: remainder(1),
    oneByOne: remainder(0),
    estimated: correlation === undefined ? undefined : remainder(correlation),
  }
}
