// One lot as it was, with one sample by the percentage laid over it; another sample can be drawn.
import type { ReplayedGrid as Grid } from '../../app/history/replay/grid.ts'
import type { PercentageQuestion } from '../../app/history/replay/percentage.ts'
import type { ReplayedLot } from '../../app/history/replay/replayed.ts'
import { LotGrid } from '../charts/lot-grid.tsx'
import { counted, frequency, whole } from '../figures.ts'
import { MarkKey } from '../marks.tsx'

type Props = { grid: Grid; draw: number; question: PercentageQuestion; lots: ReplayedLot[] }

export function DrawnLot({ grid, draw, question, lots }: Props) {
  const { supplier, percent, acceptanceNumber } = question
  const lot = lots.find(({ lotId }) => lotId === grid.lotId)
  const address = (lotId: number, nth: number) =>
    `/suppliers/${supplier.id}/percentage?percent=${percent}&allowed=${acceptanceNumber}&lot=${lotId}&draw=${nth}#drawn`
  return (
    <section id="drawn">
      <h2>One sample of lot {grid.lotId}</h2>
      <Finding grid={grid} lot={lot} acceptanceNumber={acceptanceNumber} />
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
      <p>
        <a class="button" href={address(grid.lotId, draw + 1)}>
          Draw again
        </a>
      </p>
      {lots.length > 1 && (
        <OtherLots lots={lots.filter(({ lotId }) => lotId !== grid.lotId)} addressOf={(lotId) => address(lotId, 1)} />
      )}
    </section>
  )
}

type FindingProps = { grid: Grid; lot: ReplayedLot | undefined; acceptanceNumber: number }

function Finding({ grid, lot, acceptanceNumber }: FindingProps) {
  const counting = grid.nonconforming - grid.states.filter((state) => state === 'does-not-conform').length
  const passes = grid.foundInSample <= acceptanceNumber
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

function OtherLots({ lots, addressOf }: { lots: ReplayedLot[]; addressOf: (lotId: number) => string }) {
  return (
    <p>
      Another lot:{' '}
      {lots.map(({ lotId }) => (
        <>
          <a href={addressOf(lotId)}>lot {lotId}</a>{' '}
        </>
      ))}
    </p>
  )
}
