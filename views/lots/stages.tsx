// The numbers of a plan with several stages, to be followed on paper.
import type { Stage } from '../../app/statistics/plans/plan.ts'
import { counted, whole } from '../figures.ts'
import { DataTable } from '../table.tsx'

/** Stages that follow each other with the same numbers stand in one row. */
export function StagesTable({ stages }: { stages: readonly Stage[] }) {
  return (
    <DataTable
      compact
      columns={[{ head: 'Tested in all' }, { head: 'Accept with at most' }, { head: 'Reject from' }]}
      rows={rowsOf(stages).map(({ from, to, acceptanceNumber, rejectionNumber }) => ({
        cells: [
          from === to ? counted(to, 'cord') : `${whole(from)} to ${counted(to, 'cord')}`,
          acceptanceNumber < 0 ? 'not yet' : whole(acceptanceNumber),
          whole(rejectionNumber),
        ],
      }))}
    />
  )
}

type Row = Omit<Stage, 'sampleSize'> & { from: number; to: number }

function rowsOf(stages: readonly Stage[]): Row[] {
  const rows: Row[] = []
  for (const { sampleSize, ...numbers } of stages) {
    const row = rows.at(-1)
    if (row?.acceptanceNumber === numbers.acceptanceNumber && row.rejectionNumber === numbers.rejectionNumber)
      row.to = sampleSize
    else rows.push({ from: sampleSize, to: sampleSize, ...numbers })
  }
  return rows
}
