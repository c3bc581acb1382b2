// One sum and one plan from Java 17 by its foreign function interface, without a line of C.
//
//     java --add-modules jdk.incubator.foreign --enable-native-access=ALL-UNNAMED Demo.java LIBRARY JOB
//
// LIBRARY is the absolute path of libmixcalc.so. Later releases of Java have the interface in java.lang.foreign, by other names.

import static jdk.incubator.foreign.CLinker.C_DOUBLE;
import static jdk.incubator.foreign.CLinker.C_INT;
import static jdk.incubator.foreign.CLinker.C_LONG;
import static jdk.incubator.foreign.CLinker.C_POINTER;

import java.lang.invoke.MethodHandle;
import java.lang.invoke.MethodType;
import java.nio.file.Files;
import java.nio.file.Path;
import jdk.incubator.foreign.CLinker;
import jdk.incubator.foreign.FunctionDescriptor;
import jdk.incubator.foreign.MemoryAccess;
import jdk.incubator.foreign.MemoryAddress;
import jdk.incubator.foreign.MemoryLayout;
import jdk.incubator.foreign.MemorySegment;
import jdk.incubator.foreign.ResourceScope;
import jdk.incubator.foreign.SymbolLookup;

class Demo {
    /** A function that returns a status, by the layouts of its parameters. */
    static MethodHandle function(String name, MemoryLayout... parameters) {
        Class<?>[] types = new Class<?>[parameters.length];
        for (int i = 0; i < types.length; i++) {
            types[i] = parameters[i] == C_DOUBLE ? double.class : parameters[i] == C_LONG ? long.class : MemoryAddress.class;
        }
        MemoryAddress address = SymbolLookup.loaderLookup().lookup(name).orElseThrow();
        return CLinker.getInstance()
            .downcallHandle(address, MethodType.methodType(int.class, types), FunctionDescriptor.of(C_INT, parameters));
    }

    /** Throws where a status is not MIXCALC_STATUS_OK. A whole program would hand in a mixcalc_error and show its message. */
    static void check(int status) {
        if (status != 0) {
            throw new IllegalStateException("status " + status + ": see MIXCALC_STATUS_ in mixcalc.h");
        }
    }

    public static void main(String[] arguments) throws Throwable {
        System.load(arguments[0]);
        MethodHandle mix = function("mixcalc_mix_l", C_DOUBLE, C_DOUBLE, C_POINTER, C_POINTER);
        MethodHandle planNew = function("mixcalc_plan_new", C_POINTER, C_LONG, C_POINTER, C_POINTER);
        MethodHandle planJson = function("mixcalc_plan_json", C_POINTER, C_POINTER, C_POINTER, C_POINTER);
        try (ResourceScope scope = ResourceScope.newConfinedScope()) {
            MemorySegment number = MemorySegment.allocateNative(C_DOUBLE, scope);
            check((int) mix.invokeExact(200.0, 12.4, number.address(), MemoryAddress.NULL));
            System.out.println(MemoryAccess.getDouble(number));

            byte[] bytes = Files.readAllBytes(Path.of(arguments[1]));
            MemorySegment job = MemorySegment.allocateNative(bytes.length, scope);
            job.copyFrom(MemorySegment.ofArray(bytes));
            MemorySegment plan = MemorySegment.allocateNative(C_POINTER, scope);
            MemorySegment text = MemorySegment.allocateNative(C_POINTER, scope);
            check((int) planNew.invokeExact(job.address(), (long) bytes.length, plan.address(), MemoryAddress.NULL));
            MemoryAddress handle = MemoryAccess.getAddress(plan);
            check((int) planJson.invokeExact(handle, text.address(), MemoryAddress.NULL, MemoryAddress.NULL));
            System.out.println(CLinker.toJavaString(MemoryAccess.getAddress(text)));
            free("mixcalc_string_free", MemoryAccess.getAddress(text));
            free("mixcalc_plan_free", handle);
        }
    }

    /** Gives back what the library handed out. */
    static void free(String name, MemoryAddress handedOut) throws Throwable {
        MemoryAddress address = SymbolLookup.loaderLookup().lookup(name).orElseThrow();
        MethodHandle handle = CLinker.getInstance()
            .downcallHandle(address, MethodType.methodType(void.class, MemoryAddress.class), FunctionDescriptor.ofVoid(C_POINTER));
        handle.invokeExact(handedOut);
    }
}
