// What each way's cost is made of, how often it accepts, and the worst lot that it lets through: for those who want to know more.
import type { Child } from 'hono/jsx'
import type { Advice } from '../../app/advice/advise.ts'
import type { AssessedAlternative, EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import { amount, frequency, riskOfHundred, whole } from '../figures.ts'
import { Topic } from '../frame.tsx'
import { DataTable, type TableColumn } from '../table.tsx'
import { wayWords } from '../words/plans.ts'
import { lettersOf } from './table.tsx'
import { leftOutIn } from './words.ts'

export function PartsOfWays({ advice, currency }: { advice: Advice; currency: string }) {
  const { alternatives, lot } = advice
  const letters = lettersOf(alternatives)
  const leftOut = leftOutIn(advice.leftOut)
  return (
    <Topic title="How these numbers are worked out">
      <p>
        Chances are exact for a random draw from {whole(lot.size)}. Every way stops at its rejection number, and in a
        series not before the standard’s first fetch has ended.
      </p>
      {leftOut && <p>{leftOut}</p>}
      <DataTable
        caption={captionOf(advice, currency)}
        columns={[
          { head: 'Way of testing' },
          { head: 'Worst lot it lets through too often', short: 'Worst let through' },
          ...(advice.kind === 'priced' ? costColumns(advice) : []),
        ]}
        rows={alternatives.map((way) => ({
          picked: way === advice.recommendation.chosen,
          cells: [
            <>
              <span class="way-letter">{letters.get(way) ?? ''}</span> {wayWords[way.kind]}
            </>,
            worstIn(way, lot.size),
            ...('cost' in way ? costCells(way) : []),
          ],
        }))}
      />
    </Topic>
  )
}

function captionOf(advice: Advice, currency: string): string {
  const often = `A lot is let through too often where it is accepted more than ${riskOfHundred(Number(advice.lot.terms.catchOf100) / 100)} times in 100.`
  if (advice.kind === 'protection') return often
  return `${often} Costs are expected values for the supplier as described below, per lot of ${whole(advice.lot.size)}, in ${currency}: tests, cords that escape, lots sent back. The average supposes that nonconforming cords may turn up anywhere among those tested; the bounds of the record do not. Replacements, credits and delay are left out.`
}

function costColumns({ requirements }: Advice): TableColumn[] {
  return [
    { head: 'Tests' },
    { head: 'Escaped cords' },
    { head: requirements.afterRejection === 'return' ? 'Returned lots' : 'Returned lots (none: screened)' },
    { head: 'Accepted, of such lots', short: 'Accepted' },
  ]
}

function costCells(way: EvaluatedAlternative): Child[] {
  const { testing, escapes, returns } = way.cost
  const accepted = way.kind === 'every-cord' ? 'cord by cord' : frequency(way.accepts, way.rejects)
  return [amount(testing), amount(escapes), amount(returns), accepted]
}

function worstIn({ detectsFrom }: AssessedAlternative, size: number): string {
  return detectsFrom === 0 ? 'none' : `${whole(detectsFrom)} of ${whole(size)}`
}
