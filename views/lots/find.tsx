// One field that finds lots by number, supplier, item, purchase order or production mark.

export function FindLots({ find, action }: { find: string; action: string }) {
  return (
    <search>
      <form class="find" method="get" action={action}>
        <input
          type="search"
          name="find"
          value={find}
          maxlength={100}
          placeholder="Lot, supplier, item, purchase order, mark"
          aria-label="Find lots by number, supplier, item, purchase order or production mark"
        />
        <button type="submit" class="plain">
          Find
        </button>
      </form>
    </search>
  )
}
