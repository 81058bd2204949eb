import { createHmac, randomUUID, timingSafeEqual } from 'node:crypto';
import type { Selectable } from 'kysely';
import { DoorpostError } from '../../errors.js';
import { atomically } from '../atomically.js';
import { readOfChild, writeAudit } from '../audit.js';
import type { Database } from '../connect.js';
import { stampOf } from '../json-rows.js';
import { recordOf } from '../record-of.js';
import { requireChild } from '../records/require-child.js';
import { notFound } from '../refusals.js';
import type { Actor, FamilyLink, NewFamilyLink } from '../shapes.js';
import type { Tables } from '../tables.js';

const DAY_MS = 86_400_000;

type LinkRow = Selectable<Tables['family_links']>;

/** '<link id>.<expiry, seconds>.<HMAC-SHA-256 of both>': checked before the database is asked. */
function sign(id: string, expiresAt: Date, key: string): string {
  const body = `${id}.${Math.floor(expiresAt.getTime() / 1000)}`;
  return `${body}.${createHmac('sha256', key).update(`family-link ${body}`).digest('base64url')}`;
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: a list of queries, each short
export const familyLinksRepository = (db: Database, key: () => Promise<string>) => ({
  async list(childId: string, actor: Actor): Promise<readonly FamilyLink[]> {
    const links = db
      .selectFrom('family_links')
      .selectAll()
      .where('child_id', '=', childId)
      .orderBy('created_at', 'desc');
    const rows = await readOfChild<LinkRow>(db, childId, 'family-links', actor, links);
    return rows.map((row) =>
      recordOf({
        ...row,
        expires_at: stampOf(row.expires_at),
        created_at: stampOf(row.created_at),
        withdrawn_at: row.withdrawn_at && stampOf(row.withdrawn_at),
        last_used_at: row.last_used_at && stampOf(row.last_used_at),
      }),
    );
  },

  create: (childId: string, label: string, days: number, now: Date, actor: Actor): Promise<NewFamilyLink> =>
    atomically(db, async (tx) => {
      await requireChild(tx, childId, 'share');
      const expiresAt = new Date(Math.floor(now.getTime() / 1000) * 1000 + days * DAY_MS);
      const row = await tx
        .insertInto('family_links')
        .values({
          id: randomUUID(),
          child_id: childId,
          label,
          expires_at: expiresAt,
          created_by: actor.name,
          created_at: now,
        })
        .returningAll()
        .executeTakeFirstOrThrow();
      await writeAudit(tx, actor, 'create', 'family-link', { childId, linkId: row.id, days });
      return { ...recordOf(row), token: sign(row.id, expiresAt, await key()) };
    }),

  withdraw: (linkId: string, now: Date, actor: Actor) =>
    atomically(db, async (tx) => {
      const row = await tx
        .updateTable('family_links')
        .set({ withdrawn_at: now })
        .where('id', '=', linkId)
        .returning('child_id')
        .executeTakeFirst();
      if (!row) throw notFound('family link');
      await writeAudit(tx, actor, 'withdraw', 'family-link', { childId: row.child_id, linkId });
    }),

  /** The child a token opens and the actor to read it as; throws 'link-not-valid' when forged, expired or withdrawn. */
  async open(
    token: string,
    now: Date,
  ): Promise<{ readonly childId: string; readonly actor: Actor; readonly expiresAt: string }> {
    const refused = () =>
      new DoorpostError(
        'link-not-valid',
        'This link is not valid any more or was copied incompletely: ask the clinic for a new one',
      );
    const [id, seconds] = token.split('.');
    const expiresAt = new Date(Number(seconds) * 1000);
    if (!/^\d{1,12}$/.test(seconds ?? '')) throw refused();
    const [given, right] = [Buffer.from(token), Buffer.from(sign(id, expiresAt, await key()))];
    if (given.length !== right.length || !timingSafeEqual(given, right)) throw refused();
    const row = await db
      .updateTable('family_links')
      .set({ last_used_at: now })
      .where('id', '=', id)
      .where('withdrawn_at', 'is', null)
      .where('expires_at', '>', now)
      // Nobody who lost a child, or left the clinic, reads how long a brace will fit.
      .where((e) =>
        e.exists(
          e
            .selectFrom('children as c')
            .select('c.id')
            .whereRef('c.id', '=', 'family_links.child_id')
            .where('c.status', '=', 'active'),
        ),
      )
      .returning('child_id')
      .executeTakeFirst();
    if (!row) throw refused();
    return {
      childId: row.child_id,
      expiresAt: expiresAt.toISOString(),
      actor: { userId: id, name: 'family-link', role: 'family' as const },
    };
  },
});
