// Plans of the published attributes standard for a series of lots: code letter, table, arrows, and the lot's own size.
import { count } from '../check.ts'
import type { Plan, Stage } from './plan.ts'
import { codeLetterTable, type InspectionLevel, inspectionLevels } from './tables/code-letters.ts'
import { doubleNormal } from './tables/double-normal.ts'
import { doubleTightened } from './tables/double-tightened.ts'
import { singleNormal } from './tables/single-normal.ts'
import { singleReduced } from './tables/single-reduced.ts'
import { singleTightened } from './tables/single-tightened.ts'
import {
  type AcceptanceQualityLimit,
  acceptanceQualityLimits,
  type Cell,
  type CodeLetter,
  columnOf,
  type Row,
  type Standing,
  standingOf,
  type Table,
} from './tables/table.ts'

/** The severities of the standard; the rules between them stand in switching.ts. */
export type Inspection = 'normal' | 'tightened' | 'reduced'

/** Single or double sampling. The double table for reduced inspection is not known to the project: use the single one. */
export type Scheme =
  | { readonly sampling: 'single'; readonly inspection: Inspection }
  | { readonly sampling: 'double'; readonly inspection: 'normal' | 'tightened' }

/** A position in the tables. */
export type Position = Scheme & {
  readonly codeLetter: CodeLetter
  readonly acceptanceQualityLimit: AcceptanceQualityLimit
}

/** What a buyer knows: the lot, the level (II unless otherwise agreed) and the limit. */
export type Delivery = Scheme & {
  readonly lotSize: number
  readonly level: InspectionLevel
  readonly acceptanceQualityLimit: AcceptanceQualityLimit
}

/** A plan of the standard, and what a reader must know to check it against a copy of the standard. */
export type StandardPlan = {
  readonly plan: Plan
  /** The letter asked for, and the one whose row the arrows led to. */
  readonly askedLetter: CodeLetter
  readonly codeLetter: CodeLetter
  /** The sample reaches the whole lot: every cord is tested. */
  readonly everyUnit: boolean
  /**
   * Most nonconforming units that leave the severity as it is. Under reduced inspection a lot with more, up to the
   * plan's acceptance number, is accepted and the next one goes back to normal; elsewhere both numbers are the same.
   */
  readonly staysUpTo: number
  /** The weakest standing among the positions used; anything but `read` is to be checked against the reader's own copy. */
  readonly standing: Standing
  readonly title: string
  readonly source: string
}

/**
 * Sample-size code letter of a lot.
 *
 * @param lotSize units in the lot, at least 2: a lot of one unit has no letter, it is tested
 * @param level inspection level, II unless otherwise agreed
 * @throws RangeError that names the argument
 *
 * Source: MIL-STD-105E (1989), Table I (read).
 * @example codeLetterOf({ lotSize: 480, level: 'II' }) // 'H'
 */
export function codeLetterOf({ lotSize, level }: { lotSize: number; level: InspectionLevel }): CodeLetter {
  count('lotSize', lotSize, 2)
  const column = inspectionLevels.indexOf(level)
  if (column < 0) throw new RangeError(`level must be one of ${inspectionLevels.join(', ')}, not ${level}`)

  const band = codeLetterTable.bands.findLast(({ from }) => from <= lotSize)!
  return band.letters[column]!
}

/**
 * The plan at a position of the tables, its arrows followed: the plan found under an arrow is used with its own sample size.
 *
 * @throws RangeError for a severity or a limit that the tables do not have (only 0.010 to 10 count nonconforming units) or a
 *   letter outside the table (S stands in the tightened ones alone)
 *
 * Source: MIL-STD-105E (1989), Tables II-A, II-B, II-C, III-A, III-B; how each position became known is its `standing`.
 * @example tablePlan({ codeLetter: 'H', acceptanceQualityLimit: '0.65', sampling: 'single', inspection: 'normal' })
 *   // 80 units, acceptance number 1: below H stands J
 */
export function tablePlan(position: Position): StandardPlan {
  const { codeLetter, acceptanceQualityLimit } = position
  if (columnOf(acceptanceQualityLimit) < 0)
    throw new RangeError(
      `acceptanceQualityLimit must be one of ${acceptanceQualityLimits.join(', ')}, not ${acceptanceQualityLimit}`,
    )
  const table = tableOf(position)
  const path = followed(table, codeLetter, acceptanceQualityLimit)
  const end = path.at(-1)!
  const standings = path.map(({ letter }) => standingOf(table, letter, acceptanceQualityLimit))
  if (end.cell !== 'single') return planOf(table, codeLetter, end, weakest(standings))

  const single = tablePlan({ ...position, sampling: 'single', codeLetter: end.letter })
  return { ...single, askedLetter: codeLetter, standing: weakest([...standings, single.standing]) }
}

/**
 * The standard's plan for a delivery: code letter, table and arrows, then cut to the lot. Where the first sample reaches
 * the whole lot, every unit is tested and the acceptance number stays; a second sample ends with the lot.
 *
 * @example standardPlan({ lotSize: 480, level: 'II', acceptanceQualityLimit: '1.0', sampling: 'single', inspection: 'normal' })
 *   // 50 units, acceptance number 1
 */
export function standardPlan({ lotSize, level, ...scheme }: Delivery): StandardPlan {
  const found = tablePlan({ ...scheme, codeLetter: codeLetterOf({ lotSize, level }) })
  const stages = withinLot(found.plan.stages, lotSize)
  const everyUnit = stages[0]!.sampleSize === lotSize
  return { ...found, plan: { ...found.plan, stages }, everyUnit }
}

/**
 * Acceptance number one step tighter: what the row of a single plan for normal inspection has under the next smaller limit.
 * The switching score of ISO 2859-1:1999 asks for it. Throws RangeError where the plan's acceptance number is below 2.
 */
export function acceptanceNumberOneStepTighter(
  codeLetter: CodeLetter,
  acceptanceQualityLimit: AcceptanceQualityLimit,
): number {
  const cells = rowOf(singleNormal, codeLetter).cells
  const own = firstNumber(cells[columnOf(acceptanceQualityLimit)])
  const tighter = firstNumber(cells[columnOf(acceptanceQualityLimit) - 1])
  if (own === undefined || own < 2 || tighter === undefined)
    throw new RangeError(
      `acceptanceQualityLimit must be one at which ${codeLetter} accepts 2 or more, not ${acceptanceQualityLimit}`,
    )
  return tighter
}

const singleTables = { normal: singleNormal, tightened: singleTightened, reduced: singleReduced } as const
const doubleTables = { normal: doubleNormal, tightened: doubleTightened } as const

function tableOf(scheme: Scheme): Table {
  const table = scheme.sampling === 'single' ? singleTables[scheme.inspection] : doubleTables[scheme.inspection]
  if (!table) throw new RangeError(`inspection must be one that the tables have, not ${scheme.inspection}`)
  return table
}

function rowOf(table: Table, letter: CodeLetter): Row {
  const row = table.rows.get(letter)
  if (!row) throw new RangeError(`codeLetter must be one of ${[...table.rows.keys()].join(', ')}, not ${letter}`)
  return row
}

/** A cell on the way along the arrows. */
type Step = { readonly letter: CodeLetter; readonly sampleSize: number; readonly cell: Cell }

function followed(table: Table, from: CodeLetter, limit: AcceptanceQualityLimit): Step[] {
  const letters = [...table.rows.keys()]
  const path: Step[] = []
  let letter: CodeLetter | undefined = from
  while (letter) {
    const { sampleSize, cells } = rowOf(table, letter)
    const cell: Cell = cells[columnOf(limit)]!
    path.push({ letter, sampleSize, cell })
    if (cell !== 'below' && cell !== 'above') return path
    letter = letters[letters.indexOf(letter) + (cell === 'below' ? 1 : -1)]
  }
  throw new RangeError(`acceptanceQualityLimit must lead to a plan from letter ${from}, and ${limit} does not`)
}

function planOf(
  table: Table,
  askedLetter: CodeLetter,
  { letter, sampleSize, cell }: Step,
  standing: Standing,
): StandardPlan {
  const numbers = typeof cell === 'string' ? [] : cell
  const stages = numbers.map(({ acceptanceNumber, rejectionNumber }, index): Stage => {
    const last = index === numbers.length - 1
    return {
      sampleSize: sampleSize * (index + 1),
      acceptanceNumber: last ? rejectionNumber - 1 : acceptanceNumber, // in the gap of reduced inspection the lot is accepted
      rejectionNumber,
    }
  })
  return {
    plan: { kind: 'standard', stages },
    askedLetter,
    codeLetter: letter,
    everyUnit: false,
    staysUpTo: numbers.at(-1)!.acceptanceNumber,
    standing,
    title: table.title,
    source: table.source,
  }
}

function withinLot(stages: readonly Stage[], lotSize: number): Stage[] {
  const last = stages.at(-1)!
  if (stages[0]!.sampleSize >= lotSize) return [{ ...last, sampleSize: lotSize }]
  return stages.map((stage) => ({ ...stage, sampleSize: Math.min(stage.sampleSize, lotSize) }))
}

function firstNumber(cell: Cell | undefined): number | undefined {
  return typeof cell === 'string' ? undefined : cell?.[0]?.acceptanceNumber
}

function weakest(standings: readonly Standing[]): Standing {
  if (standings.includes('recalled')) return 'recalled'
  return standings.includes('derived') ? 'derived' : 'read'
}
