/** Where a phone keeps how far its owner is. */
export interface StoryShelf {
  read(): unknown;
  keep(story: object): void;
}

/** Under one name, for one person: somebody else, or a kitchen begun afresh, is offered it anew. */
export const storyShelf = (storage: Storage, key: string, personId: string): StoryShelf => ({
  read() {
    try {
      const kept = JSON.parse(storage.getItem(key) ?? "null") as {
        personId?: string;
        story?: unknown;
      } | null;
      return kept?.personId === personId ? kept.story : undefined;
    } catch {
      return undefined;
    }
  },
  keep: (story) => storage.setItem(key, JSON.stringify({ personId, story })),
});
