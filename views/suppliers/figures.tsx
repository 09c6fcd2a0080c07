// The four figures of a supplier: how its lots spread, whether they differ, how strictly they are inspected, and what is wrong most.
import type { Series } from '../../app/history/series/series.ts'
import type { SummarisedLot } from '../../app/history/summary.ts'
import type { FaultShares } from '../../app/history/supplier-page-sums.ts'
import { counted, whole } from '../figures.ts'
import { Tile, Tiles } from '../frame.tsx'
import { mostOften } from './faults.tsx'
import { inspectionWords, reasonWords } from './words.ts'

type Props = { series: Series; faults: FaultShares; lots: SummarisedLot[] }

export function SupplierFigures({ series, faults, lots }: Props) {
  const most = mostOften(faults)
  const accepted = lots.filter((lot) => lot.accepted).length
  return (
    <Tiles>
      <Tile name="Decided lots" note={`${whole(accepted)} accepted`}>
        {whole(lots.length)}
      </Tile>
      <Tile name="Its lots differ" note={differNotes[series.difference.kind]}>
        {differWords[series.difference.kind]}
      </Tile>
      <Inspection series={series} />
      <Tile name="Mostly" note={most && `${whole(most.count)} of ${counted(faults.recorded, 'tested cord')}`}>
        {most ? most.short : 'nothing wrong'}
      </Tile>
    </Tiles>
  )
}

const differWords = { differ: 'Yes', 'not shown': 'Not shown', 'cannot tell': 'Cannot tell' } as const
const differNotes = {
  differ: 'more than chance makes them, at 1 of 100',
  'not shown': 'which does not show that they are alike',
  'cannot tell': 'too little was tested',
} as const

function Inspection({ series: { switching } }: { series: Series }) {
  if (!switching) return <Tile name="Inspection by the standard">not asked for</Tile>
  const { inspection, state } = switching
  return (
    <Tile name="Inspection by the standard" note={inspection === 'not-known' ? undefined : reasonWords[state.reason]}>
      {inspection === 'not-known' ? 'not known' : inspectionWords[inspection].replace(' inspection', '')}
    </Tile>
  )
}
