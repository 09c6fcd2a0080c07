// One item: define it, or see it and change it.

import { clauseIn } from '../../app/kit/clause.ts'
import type { Problems, Typed } from '../../app/kit/problems.ts'
import type { ItemFacts } from '../../app/register/items.ts'
import type { Role } from '../../app/terms/person.ts'
import { ClauseFact, ClauseFields } from '../contract-clause.tsx'
import { accuracy, money, whole } from '../figures.ts'
import { ChoiceField, Fact, Facts, Field, FormKey, ProblemSummary, Version } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { FollowingFields, StandardFacts, StandardFields } from './standard.tsx'
import { centsAsTyped, policyWords, tooManyWords } from './terms.tsx'

type FormState = { formKey: string; problems?: Problems | undefined; typed?: Typed | undefined }
type NewProps = Frame & FormState & { currency: string }

export function NewItemPage({ viewer, firm, done, ...form }: NewProps) {
  return (
    <Page title="Define an item" current="items" viewer={viewer} firm={firm} done={done}>
      <h1>Define an item</h1>
      <p>
        What is bought, and what every lot of it must hold. A lot keeps a copy of these terms from the moment its plan
        is frozen.
      </p>
      <ProblemSummary problems={form.problems} />
      <form method="post" action="/items">
        <TermFields {...form} typed={form.typed ?? {}} />
        <button type="submit">Define this item</button>
      </form>
    </Page>
  )
}

type ItemProps = NewProps & { roles: Role[]; item: ItemFacts }

export function ItemPage({ viewer, firm, done, roles, item, ...form }: ItemProps) {
  return (
    <Page title={item.name} current="items" viewer={viewer} firm={firm} done={done}>
      <h1>{item.name}</h1>
      <Terms item={item} currency={form.currency} />
      {roles.includes('officer') && (
        <section>
          <h2>Change this item</h2>
          <p>
            A change reaches lots whose plan is not frozen yet. A frozen plan keeps the terms it was frozen with, so
            nobody can move a limit after the results are seen.
          </p>
          <ProblemSummary problems={form.problems} />
          <form method="post" action={`/items/${item.id}`}>
            <Version value={Number(form.typed?.version ?? item.version)} />
            <TermFields {...form} typed={form.typed ?? asTyped(item)} />
            <button type="submit">Change this item</button>
          </form>
        </section>
      )}
    </Page>
  )
}

function Terms({ item, currency }: { item: ItemFacts; currency: string }) {
  return (
    <Facts>
      <Fact name="Category claimed">{item.categoryClaimed}</Fact>
      <Fact name="Cord limit tested against">{item.cordLimit}</Fact>
      <Fact name="Length">{item.lengthMetres} m</Fact>
      <Fact name="Marginal cords">{policyWords[item.marginalPolicy].long}</Fact>
      <Fact name="Tester’s accuracy at the limit">
        crosstalk {accuracy(item.crosstalkAccuracy)}, return loss {accuracy(item.returnLossAccuracy)}
      </Fact>
      <Fact name="Too many">{tooManyWords(item.tooMany)}</Fact>
      <Fact name="Such a lot is to be caught">{item.catchOf100} times in 100</Fact>
      <Fact name="One test">{money(item.costTestCents, currency)}</Fact>
      <Fact name="One escaped cord that does not conform">{money(item.costEscapeCents, currency)}</Fact>
      <Fact name="One lot returned">{money(item.costReturnCents, currency)}</Fact>
      <StandardFacts item={item} />
      <ClauseFact clause={clauseOf(item)} />
      <Fact name="Lots so far">{whole(item.lots)}</Fact>
    </Facts>
  )
}

type FieldsProps = FormState & { currency: string; typed: Typed }

function TermFields({ formKey, problems, typed, currency }: FieldsProps) {
  return (
    <>
      <FormKey value={formKey} />
      <WhatIsBought typed={typed} problems={problems} />
      <HowItIsJudged typed={typed} problems={problems} />
      <WhatIsTooMany typed={typed} problems={problems} />
      <WhatItCosts typed={typed} problems={problems} currency={currency} />
      <ClauseFields
        typed={typed}
        problems={problems}
        hint="Such as 7.2; it is quoted with every lot whose order has no clause of its own. May stay empty, with its text."
      />
      <FollowingFields typed={typed} problems={problems} />
      <StandardFields typed={typed} problems={problems} />
    </>
  )
}

type TypedFields = { typed: Typed; problems: Problems | undefined }

const number = { inputmode: 'decimal', size: 'short', required: true } as const

/** What a field is told: what was typed, and what is wrong with it. */
function tellerOf(typed: Typed, problems: Problems | undefined) {
  return (name: string) => ({ name, value: typed[name], problem: problems?.[name] })
}

function WhatIsBought({ typed, problems }: TypedFields) {
  const told = tellerOf(typed, problems)
  return (
    <>
      <Field {...told('name')} label="Name" hint="As your purchase orders call it" maxlength={120} required />
      <Field
        {...told('categoryClaimed')}
        label="Category claimed"
        hint="Such as Category 6A"
        maxlength={120}
        required
      />
      <Field
        {...told('cordLimit')}
        label="Cord limit tested against, with its edition"
        hint="The limit for cords, not for channels or permanent links: those judge a short cord far too mildly."
        maxlength={120}
        required
      />
      <Field {...told('lengthMetres')} {...number} label="Length" unit="m" />
    </>
  )
}

function HowItIsJudged({ typed, problems }: TypedFields) {
  const told = tellerOf(typed, problems)
  return (
    <>
      <ChoiceField
        {...told('marginalPolicy')}
        label="A reading at or above the limit by less than the tester’s accuracy is marginal"
        hint="The contract decides which; below the limit never conforms, whatever the accuracy."
        options={[
          { value: 'strict', label: policyWords.strict.long },
          { value: 'lenient', label: policyWords.lenient.long },
        ]}
        required
      />
      <Field
        {...told('crosstalkAccuracy')}
        {...number}
        label="Tester’s accuracy for crosstalk, at the limit"
        unit="± dB"
      />
      <Field
        {...told('returnLossAccuracy')}
        {...number}
        label="Tester’s accuracy for return loss, at the limit"
        unit="± dB"
      />
    </>
  )
}

function WhatIsTooMany({ typed, problems }: TypedFields) {
  const told = tellerOf(typed, problems)
  return (
    <>
      <Field
        {...told('tooMany')}
        {...number}
        inputmode="text"
        label="Too many in a lot"
        hint="Cords that do not conform: a number such as 5, or a share such as 1%"
      />
      <Field
        {...told('catchOf100')}
        {...number}
        label="Of 100 lots with too many, how many must be caught"
        hint="Such as 95"
      />
    </>
  )
}

function WhatItCosts({ typed, problems, currency }: TypedFields & { currency: string }) {
  const told = tellerOf(typed, problems)
  return (
    <>
      <Field {...told('costTest')} {...number} label="Cost of one test" unit={currency} />
      <Field
        {...told('costEscape')}
        {...number}
        label="Cost of one escaped cord that does not conform"
        unit={currency}
      />
      <Field {...told('costReturn')} {...number} label="Cost of one lot returned" unit={currency} />
    </>
  )
}

function asTyped(item: ItemFacts): Typed {
  const { name, categoryClaimed, cordLimit, lengthMetres, marginalPolicy, tooMany, catchOf100 } = item
  const { crosstalkAccuracy, returnLossAccuracy } = item
  return {
    name,
    categoryClaimed,
    cordLimit,
    lengthMetres,
    marginalPolicy,
    crosstalkAccuracy,
    returnLossAccuracy,
    tooMany,
    catchOf100,
    costTest: centsAsTyped(item.costTestCents),
    costEscape: centsAsTyped(item.costEscapeCents),
    costReturn: centsAsTyped(item.costReturnCents),
    critical: item.critical ? 'yes' : 'no',
    acceptanceQualityLimit: item.acceptanceQualityLimit ?? '',
    inspectionLevel: item.inspectionLevel,
    countDifferencePercent: item.countDifferencePercent,
    afterRejection: item.afterRejection,
    groupSize: String(item.groupSize),
    clauseNumber: item.clauseNumber ?? '',
    clauseText: item.clauseText ?? '',
    undecidedCounts: item.undecidedCounts,
  }
}

function clauseOf({ clauseNumber, clauseText }: ItemFacts) {
  return clauseIn({ clauseNumber: clauseNumber ?? null, clauseText: clauseText ?? null })
}
