package astray.units;

/** Uses a package that its own does not declare. */
class Undeclared {

  astray.rig.RigHelper helper;
}
