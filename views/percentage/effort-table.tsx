// The share of each lot beside one fixed number with the same tests, and beside a sample for each lot's own risk.
import type { PercentageReport } from '../../app/history/replay/report.ts'
import { expected, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

export function EffortPart({ report: { effort, percent } }: { report: PercentageReport }) {
  if (!effort) return null
  const { number, share, sizes } = effort
  return (
    <section>
      <h2>Beside one number, and one risk</h2>
      <p>
        The {percent} % come to {whole(share.tests)} tests; {whole(number)} cords of every lot spend as many at most. A
        share tests small lots less and large ones more than one number does, and neither keeps one risk: that takes a
        sample for each lot’s size. Which lets fewer through depends on the lots; on others it may be the share.
      </p>
      <ThreeSamples effort={effort} percent={percent} />
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

type Effort = NonNullable<PercentageReport['effort']>

function ThreeSamples({ effort: { number, share, fixed, risk }, percent }: { effort: Effort; percent: string }) {
  return (
    <DataTable
      columns={[
        { head: 'Sample' },
        { head: 'Tests' },
        { head: 'Lots with too many accepted', short: 'Accepted with too many' },
        { head: 'Nonconforming cords let through', short: 'Cords let through' },
        { head: 'Good lots rejected', short: 'Good lots rejected' },
      ]}
      rows={[
        { name: `${percent} % of each lot`, sample: share },
        { name: `${whole(number)} cords of each lot`, sample: fixed },
        { name: 'for each lot’s own risk, none allowed', sample: risk },
      ].map(({ name, sample }) => ({
        cells: [
          name,
          whole(sample.tests),
          expected(sample.acceptedTooMany),
          expected(sample.shipped),
          expected(sample.rejectedGood),
        ],
      }))}
    />
  )
}
