// One series of a supplier: its trend, how strictly it is inspected and why, and what its next lot will need.
import type { Need } from '../../app/history/series/next-lot.ts'
import type { Series } from '../../app/history/series/series.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { SeriesNote } from '../../app/series/switching.ts'
import { counted, whole } from '../figures.ts'
import { FormKey, ProblemSummary, TextArea } from '../form.tsx'
import { Topic } from '../frame.tsx'
import { BetweenLots } from './between-lots.tsx'
import { InspectionOf } from './inspection.tsx'
import { TrendOf } from './trend.tsx'

export type NoteForm = { formKey: string; problems?: Problems | undefined; typed?: Typed | undefined }
type Props = { supplierId: number; series: Series; manager: boolean; form: NoteForm }

export function SeriesOf({ supplierId, series, manager, form }: Props) {
  const { item, trend, switching, notes } = series
  return (
    <section>
      <h2>
        Its lots of <a href={`/items/${item.id}`}>{item.name}</a>
      </h2>
      <TrendOf trend={trend} item={item} />
      <Topic title="Lot beside lot">
        <BetweenLots series={series} />
      </Topic>
      <Topic title="How strictly it is inspected">
        <InspectionOf switching={switching} />
      </Topic>
      <Topic title="What the next lot needs by the standard">
        <p>{nextWords(series)}</p>
      </Topic>
      {manager && notes.map((kind) => <Note supplierId={supplierId} itemId={item.id} kind={kind} form={form} />)}
      {form.typed?.itemId === String(item.id) && !notes.some((kind) => kind === form.typed?.kind) && (
        <Unwanted form={form} />
      )}
    </section>
  )
}

function nextWords({ next, item }: Series): string {
  const lot =
    next.lotId === undefined
      ? `A next lot of ${whole(next.size)} cords, like the last,`
      : `Lot ${next.lotId}, ${counted(next.size, 'cord')},`
  return `${lot} ${needWords(next.need, item.acceptanceQualityLimit)}`
}

function needWords(need: Need, limit: string | undefined): string {
  switch (need.kind) {
    case 'every-cord':
      return 'is of a critical item: every cord is tested.'
    case 'nothing-taken':
      return 'is not to be taken: the series is discontinued until the supplier has acted.'
    case 'demand-alone':
      return aloneWords[need.why]
    case 'standard': {
      const { plan, codeLetter, standing, title } = need.plan
      const stage = plan.stages[0]
      if (!stage) return 'needs no test.'
      const recalled = standing === 'read' ? '' : ` The table's value is ${standing}: check it against your copy.`
      return `needs by the standard ${counted(stage.sampleSize, 'cord')} tested, ${stage.acceptanceNumber === 0 ? 'none' : `at most ${whole(stage.acceptanceNumber)}`} allowed (${title}, letter ${codeLetter}, acceptance quality limit ${limit} %).${recalled}`
    }
  }
}

const aloneWords: Record<Extract<Need, { kind: 'demand-alone' }>['why'], string> = {
  isolated: 'stands alone: no series speaks for it, and the item’s own demand counts.',
  resubmitted:
    'went back before and comes again: it counts in no series, and is demanded stricter than this; its own page of the plan says how.',
  replacement: 'comes in the place of a lot that went back: it counts in no series, and the item’s own demand counts.',
  'no limit':
    'has no plan of the standard, as the item names no acceptance quality limit; the item’s own demand counts.',
  'one cord': 'has no plan of the standard, as a lot of one cord has no code letter: it is tested.',
}

const noteWords: Record<SeriesNote['kind'], { label: string; button: string }> = {
  'supplier-acted': {
    label: 'The supplier has acted: what was changed, and how you know',
    button: 'Begin again under tightened inspection',
  },
  'reduced-wanted': {
    label: 'Production is steady and reduced inspection is wanted: why',
    button: 'Let the rules reduce inspection',
  },
  'reduced-ended': {
    label: 'Production is not steady, or reduced inspection is not wanted any more: why',
    button: 'Do not reduce inspection any more',
  },
}

/** What was typed for a note that the series does not ask for any more. */
function Unwanted({ form: { problems, typed } }: { form: NoteForm }) {
  return (
    <>
      <ProblemSummary problems={problems} />
      <p>You typed: {typed?.reason}</p>
    </>
  )
}

type NoteProps = { supplierId: number; itemId: number; kind: SeriesNote['kind']; form: NoteForm }

function Note({ supplierId, itemId, kind, form }: NoteProps) {
  const mine = form.typed?.itemId === String(itemId) && form.typed.kind === kind
  const problems = mine ? form.problems : undefined
  return (
    <form class="screen-only" method="post" action={`/suppliers/${supplierId}/series`}>
      <ProblemSummary problems={problems} />
      <FormKey value={form.formKey} />
      <input type="hidden" name="itemId" value={itemId} />
      <input type="hidden" name="kind" value={kind} />
      <TextArea
        id={`field-reason-${itemId}`}
        name="reason"
        label={noteWords[kind].label}
        value={mine ? form.typed?.reason : undefined}
        problem={problems?.reason}
        rows={2}
        maxlength={2000}
      />
      <button type="submit" class="plain">
        {noteWords[kind].button}
      </button>
    </form>
  )
}
