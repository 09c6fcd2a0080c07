// What the bench asks where a drawn cord cannot be tested: what is the matter with it, or how the lot was counted again.
import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import { FormKey } from '../../form.tsx'
import { RecountFields, UntestedFields } from './reading.tsx'

type Props = {
  lot: LotRecord
  cord: { position: number }
  formKey: string
  open: boolean
  typed: Typed
  problems: Problems | undefined
}

/** The page's own script sends the form and puts the answer in its place. */
export function smooth(path: string) {
  return { 'hx-post': path, 'hx-target': 'main', 'hx-select': 'main', 'hx-swap': 'outerHTML' }
}

export function WithoutReadings({ lot, cord, formKey, open, typed, problems }: Props) {
  const path = `/lots/${lot.id}/bench`
  return (
    <details open={open}>
      <summary>This cord cannot be tested</summary>
      <form method="post" action={path} {...smooth(path)}>
        <FormKey value={formKey} />
        <input type="hidden" name="position" value={cord.position} />
        <UntestedFields typed={typed} problems={problems} counts={countsIn(lot)} />
        <button type="submit" class="large plain">
          Record it without readings
        </button>
      </form>
    </details>
  )
}

export function EmptyPlace({ lot, cord, formKey, open, typed, problems }: Props) {
  return (
    <details open={open}>
      <summary>No cord lies in this place</summary>
      <form method="post" action={`/lots/${lot.id}/cords/${cord.position}/recount`}>
        <FormKey value={formKey} />
        <RecountFields typed={typed} problems={problems} most={lot.recountRange.most} />
        <button type="submit" class="large plain">
          Record that the place is empty
        </button>
      </form>
    </details>
  )
}

/** What a cord counts as that is gone or spoiled: in a screening no reserve is left, and nobody rules. */
export function countsIn({ terms, acts }: LotRecord): LotRecord['terms']['undecidedCounts'] {
  return acts.rule ? terms.undecidedCounts : 'nonconforming'
}
