package astray.rig.api;

import astray.rig.web.RigPage;

/** What a page borrows, and what borrows from a page. */
public class RigResource {

  RigPage page;
}
