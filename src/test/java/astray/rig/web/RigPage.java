package astray.rig.web;

import astray.rig.api.RigResource;

/** A page that borrows from the API. */
public class RigPage {

  RigResource resource;
}
