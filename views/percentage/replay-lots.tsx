// The two groups of lots and the curve over every percentage.

import type { PercentageReport } from '../../app/history/replay/report.ts'
import type { ReplayTotals } from '../../app/history/replay/sheet.ts'
import { PercentCurve } from '../charts/percent-curve.tsx'
import { expected, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

export function ReplayPart({ report }: { report: PercentageReport }) {
  return (
    <section>
      <h2>By how the lots came to be tested whole</h2>
      <DataTable
        columns={[
          { head: 'Lots' },
          { head: 'How many' },
          { head: 'held too many' },
          { head: 'of these accepted, on average' },
          { head: 'cords shipped in these, on average' },
        ]}
        rows={[
          row('Tested whole by plan: the supplier as it is', report.byPlan),
          row('Screened after their sample was rejected, or by the manager’s choice', report.afterScreening),
        ]}
      />
      <EveryPercentage report={report} />
    </section>
  )
}

function EveryPercentage({ report: { curve, trial, percent } }: { report: PercentageReport }) {
  const marked = (value: number) => ({ percent: Number(percent), value })
  const accepted = curve.map((each) => each.acceptedTooMany)
  const shipped = curve.map((each) => each.shipped)
  return (
    <>
      <h2>For every percentage</h2>
      <div class="side">
        <figure class="chart">
          <PercentCurve
            id="accepted"
            title="Lots with too many that would have been accepted, by percentage tested"
            description={inWords(accepted)}
            unit="lots with too many accepted, on average"
            values={accepted}
            marked={marked(trial.acceptedTooMany)}
          />
        </figure>
        <figure class="chart">
          <PercentCurve
            id="shipped"
            title="Cords that do not conform shipped, by percentage tested"
            description={inWords(shipped)}
            unit="cords shipped, on average"
            values={shipped}
            marked={marked(trial.shipped)}
          />
        </figure>
      </div>
      <AsTable accepted={accepted} shipped={shipped} />
    </>
  )
}

function AsTable({ accepted, shipped }: { accepted: number[]; shipped: number[] }) {
  return (
    <details>
      <summary>The same as a table</summary>
      <DataTable
        compact
        columns={[{ head: '% tested' }, { head: 'Lots with too many accepted' }, { head: 'Cords shipped' }]}
        rows={[1, 2, 5, 10, 20, 30, 50, 75, 90, 100].map((step) => ({
          cells: [whole(step), expected(accepted[step - 1] ?? 0), expected(shipped[step - 1] ?? 0)],
        }))}
      />
    </details>
  )
}

function row(name: string, sum: ReplayTotals) {
  return {
    cells: [name, whole(sum.lots), whole(sum.heldTooMany), expected(sum.acceptedOfThose), expected(sum.shippedOfThose)],
  }
}

function inWords(values: number[]): string {
  return [1, 5, 10, 25, 50, 100].map((step) => `${step} %: ${expected(values[step - 1] ?? 0)}`).join('; ')
}
