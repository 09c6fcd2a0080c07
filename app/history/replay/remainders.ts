// Whether cords of one spool stand or fall together, and what that makes of a clean sample.
import type { Task } from '../../kit/task.ts'
import { cleanRemainder } from '../../statistics/clustering/clean-remainder.ts'
import { type Intraclass, intraclassCorrelation } from '../../statistics/clustering/intraclass.ts'
import { percentageOf } from './percent.ts'
import type { AlikeSpools } from './spools.ts'

export type SpoolFacts = {
  /** spools with at least one cord recorded, and the cords that carry a mark */
  spools: number
  cords: number
  /** undefined where no cord carries a mark */
  correlation: Intraclass | undefined
}

/** Takes longer the more spools carry a mark. */
export const spoolTask: Task<AlikeSpools[], SpoolFacts> = { name: 'spools of lots', work: factsOfSpools }

export function factsOfSpools(alike: AlikeSpools[]): SpoolFacts {
  const marked = alike.flatMap(({ spools, ...spool }) =>
    spool.sampleSize > 0 ? Array.from({ length: spools }, () => spool) : [],
  )
  const cords = marked.reduce((sum, group) => sum + group.sampleSize, 0)
  return { spools: marked.length, cords, correlation: cords === 0 ? undefined : intraclassCorrelation(marked) }
}

/** Fraction nonconforming on average, 0 to 1: the lots' own, or an assumed one where they have none above 0. */
export type AverageFraction = { value: number; own: boolean }

/** Chances that the rest of a lot is clean after a clean sample: units alike, units with a correlation, units one by one. */
export type Remainders = {
  lotSize: number
  sampleSize: number
  fraction: AverageFraction
  alike: number
  oneByOne: number
  estimated: number | undefined
}

/** The lot that is spoken of where none is at hand. */
export const usualLot = 480

const assumedFraction = 0.02

export function averageFraction(own: number | undefined): AverageFraction {
  return own ? { value: own, own: true } : { value: assumedFraction, own: false }
}

/** `correlation` between two units, where one was estimated. */
export function remaindersOf(
  lotSize: number,
  percent: string,
  { fraction, correlation }: { fraction: AverageFraction; correlation: number | undefined },
): Remainders {
  const sampleSize = percentageOf(lotSize, percent)
  const remainder = (between: number) =>
    cleanRemainder({ lotSize, sampleSize, fraction: fraction.value, correlation: between })
  return {
    lotSize,
    sampleSize,
    fraction,
    alike: remainder(1),
    oneByOne: remainder(0),
    estimated: correlation === undefined ? undefined : remainder(correlation),
  }
}
