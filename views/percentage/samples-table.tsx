// The percentage beside one fixed number with the same tests, a sample for each lot's own risk, the least expected cost, and every cord.
import type { SamplesBeside } from '../../app/history/replay/effort.ts'
import type { PercentageReport } from '../../app/history/replay/report.ts'
import type { ReplayedSample } from '../../app/history/replay/trial.ts'
import { expected, money, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

type Props = { report: PercentageReport; beside: SamplesBeside; currency: string }

export function SamplesTable({ report, beside, currency }: Props) {
  const { percent } = report
  const { number, share, fixed, risk, leastCost } = beside
  const samples = [
    { name: `${percent} % of each lot`, sample: share },
    { name: `${whole(number)} cords of each lot, the same effort`, sample: fixed },
    { name: 'for each lot’s own risk, none allowed', sample: risk },
    ...(leastCost ? [{ name: 'of least expected cost, looking back', sample: leastCost }] : []),
  ]
  return (
    <section>
      <h2>Other samples of the same lots, on average</h2>
      <DataTable
        columns={[
          { head: 'Sample' },
          { head: 'Tests' },
          { head: 'Lots with too many accepted', short: 'Accepted with too many' },
          { head: 'Nonconforming cords let through', short: 'Cords let through' },
          { head: 'Good lots rejected', short: 'Good lots rejected' },
          { head: 'Cost in all', short: 'Cost in all' },
        ]}
        rows={[...samples.map((each) => rowOf(each, currency)), everyCord(report, currency)]}
      />
      <p>
        <small>Which lets fewer through depends on the lots. {leastCost ? looksBack : tooFew}</small>
      </p>
      <WhatIsTested beside={beside} percent={percent} />
    </section>
  )
}

const looksBack =
  'The least expected cost uses what all these lots show together (beta-binomial), which nobody knew before they came.'
const tooFew = 'A sample of least expected cost stands here from five lots on.'

function rowOf({ name, sample }: { name: string; sample: ReplayedSample }, currency: string) {
  const { tests, acceptedTooMany, shipped, rejectedGood, cost } = sample
  return {
    cells: [
      name,
      whole(tests),
      expected(acceptedTooMany),
      expected(shipped),
      expected(rejectedGood),
      money(cost.total, currency),
    ],
  }
}

function everyCord({ everyCord: { tests, cents } }: PercentageReport, currency: string) {
  return { cells: ['every cord, none sent back', whole(tests), '0', '0', '0', money(cents, currency)] }
}

function WhatIsTested({ beside: { number, sizes }, percent }: { beside: SamplesBeside; percent: string }) {
  return (
    <details>
      <summary>What each tests, by size of lot</summary>
      <p>
        A share tests small lots less and large ones more than one number does, and neither keeps one risk: that takes a
        sample for each lot’s size.
      </p>
      <DataTable
        compact
        columns={[
          { head: 'Lots of' },
          { head: 'How many' },
          { head: `${percent} % tests` },
          { head: `${whole(number)} of each tests` },
        ]}
        rows={sizes.map((row) => ({
          cells: [`${whole(row.size)} cords`, whole(row.lots), whole(row.byShare), whole(row.byNumber)],
        }))}
      />
    </details>
  )
}
