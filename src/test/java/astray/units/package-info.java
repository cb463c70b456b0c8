@org.springframework.modulith.ApplicationModule(allowedDependencies = {})
package astray.units;
