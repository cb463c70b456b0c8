package astray.rig;

/** A name that says nothing. */
public class RigHelper {}
