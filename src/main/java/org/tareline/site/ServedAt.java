package org.tareline.site;

import jakarta.servlet.http.HttpServletRequest;
import java.net.InetAddress;
import java.net.UnknownHostException;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;

/**
 * Where this server was asked, for codes that lead other devices here.
 *
 * @param address such as {@code http://192.168.1.20:8080}, with no slash at the end
 * @param hereAlone whether that address leads nowhere but on the machine itself
 */
public record ServedAt(String address, boolean hereAlone) {

  public static ServedAt of(HttpServletRequest request) {
    return new ServedAt(
        ServletUriComponentsBuilder.fromContextPath(request).build().toUriString(),
        loopback(request.getServerName()));
  }

  /** No name is looked up: a host that is not an address is taken as one that others know. */
  private static boolean loopback(String host) {
    try {
      return host.equals("localhost")
          || host.matches("[0-9.]+|\\[?[0-9a-fA-F:.]*:[0-9a-fA-F:.]*]?")
              && InetAddress.getByName(host).isLoopbackAddress();
    } catch (UnknownHostException notAnAddress) {
      return false;
    }
  }
}
