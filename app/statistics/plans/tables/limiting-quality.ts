// Published single plans for isolated lots, indexed by limiting quality: both parties regard the lot as isolated.
import type { Standing } from './table.ts'

/** Limiting qualities, percent nonconforming, as the table prints them. */
export const limitingQualities = [
  '0.50',
  '0.80',
  '1.25',
  '2.00',
  '3.15',
  '5.00',
  '8.00',
  '12.5',
  '20.0',
  '31.5',
] as const
export type LimitingQuality = (typeof limitingQualities)[number]

export type PublishedPlan = { readonly sampleSize: number; readonly acceptanceNumber: number }

/** Lots of `from` to `to` units; a missing plan means that none is known to the project. */
type Band = { readonly from: number; readonly to: number; readonly plans: readonly (PublishedPlan | undefined)[] }

export const limitingQualityTable: {
  readonly title: string
  readonly source: string
  readonly standing: Standing
  readonly bands: readonly Band[]
} = {
  title: 'Single sampling for isolated lots by limiting quality, procedure A',
  source:
    'ISO 2859-2:1985, Table A, from memory; shown are only cells whose chance to accept at the limiting quality, computed ' +
    'exactly for the largest lot of the row, is at most the 13 % that the abstract of the standard names',
  standing: 'recalled',
  bands: bandsOf(`
  from      to  0.50  0.80  1.25  2.00  3.15   5.00   8.00   12.5   20.0   31.5
    16      25  -     -     -     -     -      -      17/0   13/0   9/0    6/0
    26      50  -     -     -     -     -      -      22/0   15/0   10/0   6/0
    51      90  -     -     -     -     -      34/0   24/0   16/0   10/0   8/0
    91     150  -     -     -     80/0  55/0   38/0   26/0   18/0   13/0   13/1
   151     280  -     -     130/0 95/0  65/0   42/0   28/0   20/0   20/1   13/1
   281     500  -     220/0 155/0 105/0 80/0   50/0   32/0   32/1   20/1   20/3
   501    1200  380/0 255/0 170/0 125/0 125/1  80/1   50/1   32/1   32/3   32/5
  1201    3200  430/0 280/0 200/0 200/1 125/1  125/3  80/3   50/3   50/5   50/10
  3201   10000  450/0 315/0 315/1 200/1 200/3  200/5  125/5  80/5   80/10  80/18
 10001   35000  500/0 500/1 315/1 315/3 315/5  315/10 200/10 125/10 125/18 80/18
 35001  150000  800/1 500/1 500/3 500/5 500/10 500/18 315/18 200/18 125/18 80/18
150001  500000  800/1 800/3 800/5 800/10 800/18 500/18 315/18 200/18 125/18 80/18
`),
}

function bandsOf(printed: string): Band[] {
  return printed
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => {
      const [from, to, ...cells] = line.trim().split(/\s+/)
      if (cells.length !== limitingQualities.length)
        throw new RangeError(`printed must hold a cell for every limiting quality, not ${line}`)
      return { from: Number(from), to: Number(to), plans: cells.map(planOf) }
    })
}

function planOf(cell: string): PublishedPlan | undefined {
  if (cell === '-') return undefined
  const [sampleSize, acceptanceNumber] = cell.split('/').map(Number)
  if (sampleSize === undefined || acceptanceNumber === undefined)
    throw new RangeError(`printed must hold sample size and acceptance number, not ${cell}`)
  return { sampleSize, acceptanceNumber }
}
