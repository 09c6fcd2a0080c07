// The inspector confirms the count at the dock: from then on it is the lot's size.

import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import { counted, whole } from '../figures.ts'
import { Fact, Facts, ProblemSummary, TextArea, Version } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { PackingFields, packingAsTyped } from './announcement-page.tsx'

type Props = Frame & { lot: LotRecord; problems?: Problems | undefined; typed?: Typed | undefined }

export function ReceiptPage({ viewer, firm, done, lot, problems, typed }: Props) {
  const { announced, received } = lot
  // The announced number is not put into the field: who counts would only have to agree with it.
  const size = received ? String(received.size) : ''
  const kept = typed ?? { ...packingAsTyped(announced), size, note: received?.note ?? '' }
  return (
    <Page title={`Receive lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Receive <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p>
        Count, do not copy. {counted(announced.size, 'cord is', 'cords are')} announced; what you count is the size of
        the lot from now on, and a difference is kept.
      </p>
      <Facts>
        <Fact name="Supplier">{lot.supplier.name}</Fact>
        <Fact name="Item">{lot.item.name}</Fact>
        <Fact name="Production mark">{announced.productionMark}</Fact>
        <Fact name="Purchase order">{announced.purchaseOrder}</Fact>
        {received && <Fact name="Counted before">{whole(received.size)}</Fact>}
      </Facts>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/lots/${lot.id}/receipt`}>
        <Version value={Number(typed?.version ?? lot.version)} />
        <PackingFields problems={problems} typed={kept} sizeLabel="Cords counted" />
        <TextArea
          name="note"
          label="What you noticed"
          hint="Damage, mixed marks, wet cartons; may stay empty"
          value={kept.note}
          problem={problems?.note}
          maxlength={2000}
        />
        {lot.rule && <OneMark mark={announced.productionMark} ticked={typed?.oneMark === 'yes'} />}
        <button type="submit">{lot.rule ? 'Check what this does' : 'Receive this lot'}</button>
      </form>
    </Page>
  )
}

function OneMark({ mark, ticked }: { mark: string; ticked: boolean }) {
  return (
    <fieldset class="choice">
      <legend>Production mark</legend>
      <div class="choices">
        <label class="option">
          <input type="checkbox" name="oneMark" value="yes" checked={ticked} />
          <span>
            Every carton carries the production mark {mark}
            <small>and no other; else leave it empty, and the plan waits for the officer</small>
          </span>
        </label>
      </div>
    </fieldset>
  )
}
