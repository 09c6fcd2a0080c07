// The register of items: what is bought, against which limit it is tested, what it demands.

import type { ItemFacts } from '../../app/register/items.ts'
import type { Role } from '../../app/terms/person.ts'
import { accuracy, whole } from '../figures.ts'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'
import { policyWords, tooManyWords } from './terms.tsx'

type Props = Frame & { roles: Role[]; items: ItemFacts[] }

/** Everybody signed in reads the register; the procurement officer adds to it. */
export function ItemsPage({ viewer, firm, done, roles, items }: Props) {
  return (
    <Page title="Items" current="items" viewer={viewer} firm={firm} done={done}>
      <h1>Items</h1>
      {items.length === 0 ? (
        <p>
          No item is defined yet. A procurement officer defines one before its first lot is announced: what is bought,
          the cord limit it is tested against, and what is too many.
        </p>
      ) : (
        <Register items={items} />
      )}
      {roles.includes('officer') && (
        <p class="actions">
          <a class="button" href="/items/new">
            Define an item
          </a>
        </p>
      )}
    </Page>
  )
}

function Register({ items }: { items: ItemFacts[] }) {
  return (
    <DataTable
      columns={[
        { head: 'Item' },
        { head: 'Cord limit', text: true },
        { head: 'Marginal cords', text: true },
        { head: 'Too many', text: true },
        { head: 'Caught, of 100' },
        { head: 'Lots' },
      ]}
      rows={items.map((item) => ({
        cells: [
          <>
            <a href={`/items/${item.id}`}>{item.name}</a>
            <small>
              {item.categoryClaimed}, {item.lengthMetres} m
            </small>
          </>,
          <>
            {item.cordLimit}
            <small>
              crosstalk {accuracy(item.crosstalkAccuracy)}, return loss {accuracy(item.returnLossAccuracy)}
            </small>
          </>,
          policyWords[item.marginalPolicy].short,
          tooManyWords(item.tooMany),
          item.catchOf100,
          whole(item.lots),
        ],
      }))}
    />
  )
}
