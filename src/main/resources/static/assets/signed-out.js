// Nobody is signed in where this is read: packing lists that were kept for whoever was go. Checks that have not been
// sent stay, with no more of a thing than its id, and are sent when the same account opens a packing list again.
if ("caches" in window) {
  for (const name of await caches.keys()) if (name.startsWith("packing-")) await caches.delete(name);
}
