// The same number of tests spent as one fixed sample size, beside the share of each lot.
import type { PercentageReport } from '../../app/history/replay/report.ts'
import { expected, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

export function EffortPart({ report: { effort, percent } }: { report: PercentageReport }) {
  if (!effort) return null
  const { number, share, fixed, sizes } = effort
  return (
    <section>
      <h2>The same effort, spent as one number</h2>
      <p>
        The {percent} % come to {whole(share.tests)} tests. Spent as {whole(number)} cords of every lot (
        {whole(fixed.tests)} tests) they would have accepted {expected(fixed.acceptedTooMany)} lots with too many
        instead of {expected(share.acceptedTooMany)}, and shipped {expected(fixed.shipped)} cords that do not conform
        instead of {expected(share.shipped)}. A share tests small lots less and large ones more than the one number
        does; what protects is the number of cords.
      </p>
      <DataTable
        compact
        columns={[
          { head: 'Lots of' },
          { head: 'How many' },
          { head: `${percent} % tests` },
          { head: 'The fixed number tests' },
        ]}
        rows={sizes.map((row) => ({
          cells: [`${whole(row.size)} cords`, whole(row.lots), whole(row.byShare), whole(row.byNumber)],
        }))}
      />
    </section>
  )
}
