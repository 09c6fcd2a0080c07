// One lot as it was, with one sample by the percentage laid over it; another sample, or another lot, can be drawn.
import type { ReplayedGrid as Grid } from '../../app/history/replay/grid.ts'
import type { PercentageReport } from '../../app/history/replay/report.ts'
import type { ReplayedLot } from '../../app/history/replay/whole-lots.ts'
import { LotGrid } from '../charts/lot-grid.tsx'
import { counted, frequency, whole } from '../figures.ts'
import { MarkKey } from '../marks.tsx'
import { LotsTable } from './lots-table.tsx'

type Props = { report: PercentageReport; addressOf: (lotId: number, draw: number) => string }

export function DrawnLot({ report, addressOf }: Props) {
  const { lots, grid, draw, tooLargeToDraw } = report.drawn
  return (
    <section id="drawn">
      {grid && (
        <>
          <h2>One sample of lot {grid.lotId}</h2>
          <Finding grid={grid} lot={lots.find(({ lotId }) => lotId === grid.lotId)} allowed={report.allowed} />
          <Drawing grid={grid} />
          <p class="screen-only">
            <a class="button" href={addressOf(grid.lotId, draw + 1)}>
              Draw again
            </a>
          </p>
        </>
      )}
      {tooLargeToDraw && (
        <p>Lot {tooLargeToDraw} has too many cords to be drawn one by one here; its numbers stand in the table.</p>
      )}
      <LotsTable lots={lots} addressOf={(lotId) => addressOf(lotId, 1)} />
    </section>
  )
}

function Drawing({ grid }: { grid: Grid }) {
  return (
    <figure class="chart">
      <LotGrid
        id="drawn-lot"
        title={`Lot ${grid.lotId}, cord by cord`}
        description={`${whole(grid.nonconforming)} of ${whole(grid.size)} cords do not conform; ${whole(grid.foundInSample)} of them are among the ${whole(grid.sample.length)} of this sample.`}
        states={grid.states}
        sample={grid.sample}
      />
      <figcaption>
        Each shape is a cord, position 1 first; a bar under it: in this sample. <MarkKey />
      </figcaption>
    </figure>
  )
}

function Finding({ grid, lot, allowed }: { grid: Grid; lot: ReplayedLot | undefined; allowed: number }) {
  const counting = grid.nonconforming - grid.states.filter((state) => state === 'does-not-conform').length
  const passes = grid.foundInSample <= allowed
  return (
    <p>
      This sample of {counted(grid.sample.length, 'cord')} holds {whole(grid.foundInSample)} of the{' '}
      {counted(grid.nonconforming, 'cord')} that {grid.nonconforming === 1 ? 'does' : 'do'} not conform: it would have{' '}
      <b>{passes ? 'accepted the lot' : 'rejected the lot'}</b>.{' '}
      {lot && <>Over all samples, {frequency(lot.acceptance)} accept it (exact).</>}
      {counting > 0 &&
        ` Of the ${whole(grid.nonconforming)}, ${whole(counting)} ${counting === 1 ? 'is' : 'are'} marginal and ${counting === 1 ? 'counts' : 'count'} by the lot’s strict rule.`}
    </p>
  )
}
