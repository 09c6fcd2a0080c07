// The officer announces a lot, or corrects what was announced.

import { lengths } from '../../app/kit/limits.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { LotRecord } from '../../app/lots/record/lot.ts'
import type { Packing } from '../../app/lots/rules/packing.ts'
import type { FormerKind } from '../../app/terms/lot.ts'
import { ClauseFields } from '../contract-clause.tsx'
import { whole } from '../figures.ts'
import { ChoiceField, Field, FormKey, ProblemSummary, Select, TextArea, Version } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'

type Register = { id: number; name: string }[]
type FormState = { problems?: Problems | undefined; typed?: Typed | undefined }
type Choices = { suppliers: Register; items: Register }

type NewProps = Frame & FormState & Choices & { formKey: string }

export function NewLotPage({ viewer, firm, done, suppliers, items, formKey, problems, typed }: NewProps) {
  const ready = suppliers.length > 0 && items.length > 0
  return (
    <Page title="Announce a lot" current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>Announce a lot</h1>
      <p>
        One lot is one supplier, one item and one production mark, put forward together. Cords of another mark are
        another lot.
      </p>
      {ready ? (
        <>
          <ProblemSummary problems={problems} />
          <form method="post" action="/lots">
            <FormKey value={formKey} />
            <LotFields suppliers={suppliers} items={items} problems={problems} typed={typed ?? {}} />
            <RuleField problems={problems} typed={typed ?? {}} />
            <button type="submit">Announce this lot</button>
          </form>
        </>
      ) : (
        <p class="caution">
          A lot needs a supplier and an item of the register. <a href="/suppliers">Register a supplier</a> and{' '}
          <a href="/items/new">define an item</a> first.
        </p>
      )}
    </Page>
  )
}

type CorrectionProps = Frame & FormState & Choices & { lot: LotRecord }

export function CorrectionPage({ viewer, firm, done, lot, suppliers, items, problems, typed }: CorrectionProps) {
  return (
    <Page title={`Correct lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Correct <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p>
        Until the plan is frozen, what was announced can be corrected; the audit keeps what stood before.
        {lot.received && ` What was counted at the dock, ${whole(lot.received.size)}, stays as it was counted.`}
      </p>
      <ProblemSummary problems={problems} />
      <form method="post" action={`/lots/${lot.id}/correction`}>
        <Version value={Number(typed?.version ?? lot.version)} />
        <LotFields suppliers={suppliers} items={items} problems={problems} typed={typed ?? asTyped(lot)} />
        <button type="submit">Correct this lot</button>
      </form>
    </Page>
  )
}

function RuleField({ problems, typed }: { problems: Problems | undefined; typed: Typed }) {
  return (
    <ChoiceField
      name="rule"
      label="How the lot is to be tested"
      hint="A rule is worked out for the number that is counted, and its plan freezes once the inspector has confirmed the count."
      value={typed.rule ?? 'later'}
      problem={problems?.rule}
      options={[
        { value: 'later', label: 'I choose later', note: 'on the page of its plan, before or after the count' },
        { value: 'zero-acceptance', label: 'None allowed', note: 'as many as catch what the item calls too many' },
        { value: 'every-cord', label: 'Every cord', note: 'each is kept or sent back by its own result' },
      ]}
    />
  )
}

type FieldsProps = Choices & { problems: Problems | undefined; typed: Typed }

function LotFields({ suppliers, items, problems, typed }: FieldsProps) {
  const told = (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
  return (
    <>
      <Select {...told('supplierId')} label="Supplier" options={optionsOf(suppliers)} required />
      <Select {...told('itemId')} label="Item" options={optionsOf(items)} required />
      <PackingFields problems={problems} typed={typed} sizeLabel="Cords in the lot, as announced" />
      <Field
        {...told('productionMark')}
        label="Production mark"
        hint="The maker’s own, such as a date code: what was made together"
        maxlength={120}
        required
      />
      <Field {...told('purchaseOrder')} label="Purchase-order reference" maxlength={120} required />
      <ClauseFields
        typed={typed}
        problems={problems}
        hint="Only where this order has one of its own, such as 7.2; else that of the item is quoted"
      />
      <FormerFields problems={problems} typed={typed} />
      <SeriesField problems={problems} typed={typed} />
    </>
  )
}

function SeriesField({ problems, typed }: { problems: Problems | undefined; typed: Typed }) {
  return (
    <ChoiceField
      name="isolated"
      problem={problems?.isolated}
      value={typed.isolated ?? 'no'}
      label="Does it belong to a series?"
      options={[
        {
          value: 'no',
          label: 'Yes',
          note: 'one of several lots that this supplier makes and sends one after another',
        },
        {
          value: 'yes',
          label: 'No, it stands alone',
          note: 'a single purchase',
        },
      ]}
    />
  )
}

/** Whether the lot was here before; a number and a sorting are looked at only where it was. */
function FormerFields({ problems, typed }: { problems: Problems | undefined; typed: Typed }) {
  const told = (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
  return (
    <>
      <ChoiceField
        {...told('before')}
        value={typed.before ?? 'no'}
        label="Was it here before?"
        options={[
          { value: 'no', label: 'No', note: 'it comes for the first time' },
          {
            value: 'resubmission',
            label: 'Yes: it went back, was sorted and comes again',
            note: 'once; it is inspected more strictly, and counts in no series',
          },
          {
            value: 'replacement',
            label: 'No, but it comes in the place of a lot that went back',
            note: 'it is inspected like any other, and counts in no series',
          },
        ]}
      />
      <fieldset class="former">
        <legend>For a lot that was here before, or comes in the place of one</legend>
        <Field {...told('formerLot')} label="Number of the lot that went back" inputmode="numeric" size="short" />
        <TextArea
          {...told('declaredSorting')}
          label="What was sorted, as the supplier declares it"
          hint="Needed for a lot that comes again: without a declared sorting nothing is resubmitted"
          maxlength={lengths.reason}
        />
      </fieldset>
    </>
  )
}

type PackingProps = { problems: Problems | undefined; typed: Typed; sizeLabel: string }

/** How many cords, and in how many cartons: from these follows where each cord lies. */
export function PackingFields({ problems, typed, sizeLabel }: PackingProps) {
  const told = (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
  const number = { inputmode: 'numeric', size: 'short', required: true } as const
  return (
    <>
      <Field {...told('size')} {...number} label={sizeLabel} hint="1 to 1,000,000, typed without a comma" />
      <Field {...told('cartons')} {...number} label="Cartons" />
      <Field
        {...told('cordsInCarton')}
        {...number}
        label="Cords in a full carton"
        hint="All cartons are full but the last, which may hold fewer"
      />
    </>
  )
}

export function packingAsTyped({ size, cartons, cordsInCarton }: Packing): Typed {
  return { size: String(size), cartons: String(cartons), cordsInCarton: String(cordsInCarton) }
}

function asTyped({ supplier, item, announced, links: { former } }: LotRecord): Typed {
  const { productionMark, purchaseOrder, isolated, clause } = announced
  const registered = { supplierId: String(supplier.id), itemId: String(item.id) }
  return {
    ...registered,
    ...packingAsTyped(announced),
    productionMark,
    purchaseOrder,
    isolated: isolated ? 'yes' : 'no',
    ...(clause && { clauseNumber: clause.number, clauseText: clause.text }),
    before: former?.kind ?? 'no',
    ...(former && { formerLot: String(former.lotId) }),
    ...(former?.kind === 'resubmission' && { declaredSorting: former.sorting }),
  }
}

function optionsOf(register: Register) {
  return register.map(({ id, name }) => ({ value: String(id), label: name }))
}

/** What is typed already for a lot that comes again, or in the place of another: what the two have in common. */
export function againAsTyped(lot: LotRecord, before: FormerKind): Typed {
  const { supplier, item, announced } = lot
  const same = { supplierId: String(supplier.id), itemId: String(item.id), purchaseOrder: announced.purchaseOrder }
  return { ...same, before, formerLot: String(lot.id) }
}
