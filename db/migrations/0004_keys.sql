-- The key of a bench's form stands with its entry for good: for a day it is written down only that it is used. An index of ranges is
-- enough to find the old ones.
DROP INDEX "submissions_at";--> statement-breakpoint
ALTER TABLE "submissions" ALTER COLUMN "act" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "submissions" ALTER COLUMN "subject" DROP NOT NULL;--> statement-breakpoint
ALTER TABLE "submissions" ALTER COLUMN "input_digest" DROP NOT NULL;--> statement-breakpoint
CREATE INDEX "submissions_at" ON "submissions" USING brin ("at");--> statement-breakpoint
create function date_key() returns trigger language plpgsql set search_path = public, pg_temp as $$
begin
  new.at := clock_timestamp();
  return new;
end $$;
--> statement-breakpoint
drop trigger dated_by_the_database on submissions;
--> statement-breakpoint
create trigger dated_by_the_database before insert on submissions for each row when (works_for_the_service()) execute function date_key();
--> statement-breakpoint

-- As before; asked once who works, and not at all where nothing hangs on it: each cord at the bench moves its lot.
create or replace function move_lot() returns trigger language plpgsql set search_path = public, pg_temp as $$
declare
  serves boolean := works_for_the_service();
begin
  new.version := old.version + 1;
  if serves or new.moved_at = old.moved_at then
    new.moved_at := greatest(clock_timestamp(), old.moved_at, new.moved_at);
    if new.state <> old.state then
      -- what was signed for this step is of the same transaction: should the clock step back within it, the signature still comes first
      new.moved_at := greatest(new.moved_at,
        (select frozen_at from plans where lot_id = new.id), (select drawn_at from draws where lot_id = new.id),
        (select max(decided_at) from decisions where lot_id = new.id));
    end if;
  end if;
  if new.received_at is distinct from old.received_at and serves then
    new.received_at := new.moved_at;
  end if;
  if new.withdrawn_at is distinct from old.withdrawn_at and serves then
    new.withdrawn_at := new.moved_at;
  end if;
  new.done_at := case when new.state in ('accepted', 'conceded', 'sorted', 'returned', 'withdrawn') then new.moved_at end;
  return new;
end $$;
