// Shows what drawing will do before it is done: a lot is drawn once.
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { counted, whole } from '../figures.ts'
import { Columns } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { planSentence } from './words.ts'

type Props = Frame & { lot: LotRecord; plan: NonNullable<LotRecord['plan']> }

export function DrawReviewPage({ viewer, firm, done, lot, plan }: Props) {
  return (
    <Page title={`Draw lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <Columns
        side="right"
        panel={
          <>
            <form method="post" action={`/lots/${lot.id}/draw`}>
              <button type="submit">Draw {counted(plan.sampleSize, 'position')}</button>
            </form>
            <p>
              <a href={`/lots/${lot.id}`}>Back to the lot</a>
            </p>
          </>
        }
      >
        <h1>
          <a href={`/lots/${lot.id}`}>Lot {lot.id}</a> · {lot.item.name} · {lot.supplier.name}
        </h1>
        <p class="answer">
          Draw {whole(plan.sampleSize)} of the {counted(lot.size, 'cord')} at random.
        </p>
        <p class="because">
          A lot is drawn once: the draw cannot be repeated. The seed comes from the system’s random source at this
          moment, and from it anybody can draw the same positions again. {planSentence(plan)}
        </p>
      </Columns>
    </Page>
  )
}
